import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { compareTrials } from '../../../src/core/compare/compare-trials.ts';
import { formatComparison } from '../../../src/core/compare/format-comparison.ts';
import { bodyFromPositions } from '../../../src/core/pose/body-from-positions.ts';
import { reportAngles } from '../../../src/core/report/report-angles.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { placedByHand } from '../../support/ordinary-people.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';
import { standsAgain } from '../../support/stand-again.ts';
import { checkPositions } from '../../support/still-trial.ts';

const capture = (positions: MarkerPositions) => ({
  body: bodyFromPositions(wands22, emptySession, (label) => positions.get(label))!,
  recorded: emptySession,
  report: checkPositions(positions),
});
const compare = (before: MarkerPositions, now: MarkerPositions) => compareTrials(capture(before), capture(now));
const textOf = (before: MarkerPositions, now: MarkerPositions) =>
  formatComparison(compare(before, now), { before: 'one.c3d', now: 'two.c3d' }, { columns: 80, color: false });
const angleOf = (positions: MarkerPositions, joint: string, motion: string, side: string) =>
  reportAngles(capture(positions).body, wands22, emptySession)!.values.find(
    (one) => one.joint === joint && one.motion === motion && one.side === side,
  )!.deg;

const people = [2, 5, 9, 14, 21];

describe('a capture after a correction', () => {
  it('says how far the step was carried out and what remains, whatever the stance', () => {
    for (const seed of people) {
      const low = displace(standsAgain(seed, 0), 'L_HEEL', { up: -20 });
      const asked = capture(low).report.moves.find(({ marker }) => marker === 'L_HEEL');
      expect(asked, `person ${seed}`).toBeDefined();
      const again = standsAgain(seed, 1);
      const outcomeOf = (now: MarkerPositions) =>
        compare(low, now).steps!.steps.find(({ marker }) => marker === 'L_HEEL')!;
      const whole = outcomeOf(again);
      // Six of twenty millimetres are left.
      const part = outcomeOf(displace(again, 'L_HEEL', { up: -6 }));
      expect(Math.abs(whole.movedMm! - 20), `person ${seed}`).toBeLessThan(3);
      expect(Math.abs(part.movedMm! - 14), `person ${seed}`).toBeLessThan(3);
      expect(Math.abs(part.remainsMm! - (part.askedMm! - part.movedMm!))).toBeLessThan(1e-9);
      expect(outcomeOf(displace(again, 'L_HEEL', { up: -20 })).result).toBe('not-moved');
    }
  });

  it.each([
    ['R_TW', 22, 8],
    ['L_TW', -22, 0],
    ['R_SW', 22, 8],
  ])('tells to 3 mm how far the wand %s went, though it was the marker that turns its segment', (marker, was, is) => {
    for (const seed of people) {
      const before = displace(standsAgain(seed, 0), marker, { forward: was });
      const { steps, placement } = compare(before, displace(standsAgain(seed, 1), marker, { forward: is }));
      const step = steps!.steps.find((one) => one.marker === marker)!;
      // Along the way that was asked for, which is not wholly forward.
      expect(Math.abs(step.movedMm! - Math.abs(was - is)), `person ${seed}`).toBeLessThan(3);
      const placed = placement.find((one) => one.marker === marker)!;
      expect(Math.abs(placed.mm.forward - (is - was)), `person ${seed}`).toBeLessThan(3);
      const others = placement.filter(({ segment }) => segment === placed.segment).filter((one) => one !== placed);
      for (const other of others) expect(other.distanceMm, `person ${seed} ${other.marker}`).toBeLessThan(2);
    }
  });

  it('names the checks that are settled, and those that fail still or only now', () => {
    const low = displace(standsAgain(5, 0), 'L_HEEL', { up: -20 });
    const now = displace(standsAgain(5, 1), 'R_HEEL', { up: -20 });
    const text = textOf(low, now);
    expect(text).toMatch(/What was asked for\n {2}1\. L_HEEL/);
    expect(text).toContain('The markers stayed on');
    expect(text).toMatch(/Settled: .*, left/);
    expect(text).toMatch(/Failing only now: .*, right/);
    expect(textOf(low, displace(standsAgain(5, 1), 'L_HEEL', { up: -20 }))).toMatch(/Still failing: .*, left/);
  });
});

describe('joint angles of two captures', () => {
  it('come apart into what placing and what standing makes of them', () => {
    for (const seed of people) {
      const before = standsAgain(seed, 0);
      const stance = standsAgain(seed, 1);
      const now = displace(stance, 'R_TW', { forward: 20 });
      const angle = compare(before, now).angles.find(
        (one) => one.joint === 'hip' && one.motion === 'rotation' && one.side === 'right',
      )!;
      const of = (positions: MarkerPositions) => angleOf(positions, 'hip', 'rotation', 'right');
      const [placing, standing] = [of(now) - of(stance), of(stance) - of(before)];
      expect(angle.now - angle.before).toBeCloseTo(placing + standing, 6);
      expect(Math.abs(placing), `person ${seed}`).toBeGreaterThan(5);
      // What a marker is off is shared by its neighbours in part: within a third.
      expect(angle.fromPlacing / placing, `person ${seed}`).toBeGreaterThan(0.67);
      expect(angle.fromPlacing / placing, `person ${seed}`).toBeLessThan(1.33);
    }
  });

  it('differ by standing alone where no marker was moved', () => {
    for (const seed of people) {
      for (const { fromPlacing, joint, motion } of compare(standsAgain(seed, 0), standsAgain(seed, 1)).angles)
        expect(Math.abs(fromPlacing), `person ${seed} ${joint} ${motion}`).toBeLessThan(1.5);
    }
  });
});

describe('whose markers they are', () => {
  it('is said: left on, placed anew, or of two people by their size', () => {
    const before = standsAgain(9, 0);
    expect(compare(before, standsAgain(9, 1)).marking).toMatchObject({ markers: 'stayed-on', otherPerson: false });
    const labels = [...before.keys()];
    const anew = labels.reduce(
      (positions, label, index) =>
        displace(positions, label, { up: ((index * 5) % 11) - 5, forward: ((index * 7) % 13) - 6 }),
      standsAgain(9, 1),
    );
    expect(compare(before, anew).marking).toMatchObject({ markers: 'anew', otherPerson: false });
    expect(textOf(before, anew)).toContain('placed anew');
    const smaller = new Map([...before].map(([label, [x, y, z]]) => [label, [x * 0.9, y * 0.9, z * 0.9] as const]));
    const marking = compare(before, smaller as unknown as MarkerPositions).marking;
    expect(marking.otherPerson).toBe(true);
    expect(marking.sizeChange).toBeCloseTo(-0.1, 6);
    expect(textOf(before, smaller as unknown as MarkerPositions)).toMatch(/10 % smaller than before/);
  });

  it('is not told of as a correction where it is another body', () => {
    const { steps } = compare(placedByHand(3), placedByHand(8));
    expect(steps).toBeNull();
  });
});
