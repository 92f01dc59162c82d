import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { displace, remove } from '../../../sample-trials/plant-fault.ts';
import { findBlindSpots, isBlind } from '../../../src/core/blind-spots/find-blind-spots.ts';
import type { LoadedMarkerSet } from '../../../src/core/marker-set/parse-marker-set.ts';
import { bodyFromPositions } from '../../../src/core/pose/body-from-positions.ts';
import { assessRules } from '../../../src/core/rules/assess-rules.ts';
import { expectedRules } from '../../../src/core/rules/expected-rules.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { medial20, normsOf, wands22 } from '../../support/shipped-marker-sets.ts';

function outcomesOf(positions: MarkerPositions, set: LoadedMarkerSet = wands22) {
  const body = bodyFromPositions(set, emptySession, (label) => positions.get(label))!;
  return { body, outcomes: assessRules(body, expectedRules(set, emptySession), emptySession) };
}

function failing(positions: MarkerPositions): string[] {
  return outcomesOf(positions).outcomes.flatMap(({ rule, status }) => (status === 'fail' ? [rule.id] : []));
}

const adult = symmetricAdult();
const { body, outcomes } = outcomesOf(adult);
const spots = findBlindSpots(body, outcomes, normsOf('lower-limb-wands-22'));

function find(how: string, marker: string, toward: string) {
  return spots.find((spot) => spot.how === how && spot.markers[0] === marker && spot.toward === toward)!;
}

describe('what a set sees on an average adult', () => {
  it.each([
    ['L_HEEL', 'up', { up: 1 }],
    ['R_LE', 'down', { up: -1 }],
    ['R_ASIS', 'up', { up: 1 }],
  ] as const)('a rule fails on %s %s from the size that is given, and not before', (marker, toward, off) => {
    const { fails } = find('alone', marker, toward);
    expect(failing(displace(adult, marker, { up: off.up * (fails!.mm + 0.5) }))).toContain(fails!.rule);
    expect(failing(displace(adult, marker, { up: off.up * (fails!.mm - 0.5) }))).toEqual([]);
  });

  it('a heel fails exactly where the limit of its rule and its band say: 8 mm against the forefoot', () => {
    expect(find('alone', 'R_HEEL', 'up').fails).toEqual({ mm: expect.closeTo(8, 0), rule: 'heel-level.right' });
  });

  it('right and left are alike, and so are both ways of a pair', () => {
    for (const spot of spots.filter(({ how, markers }) => how === 'alone' && markers[0]!.startsWith('R_'))) {
      const other = find('alone', spot.markers[0]!.replace('R_', 'L_'), spot.toward);
      expect(other.fails?.mm ?? 99, `${spot.markers[0]} ${spot.toward}`).toBeCloseTo(spot.fails?.mm ?? 99, 0);
    }
  });

  it('both ASIS up, and the sacral marker up or down, are blind spots: they look like a tilted pelvis', () => {
    for (const spot of [
      find('both-sides-alike', 'R_ASIS', 'up'),
      find('alone', 'S1', 'up'),
      find('alone', 'S1', 'down'),
    ])
      expect(isBlind(spot)).toBe(true);
    const both = displace(displace(adult, 'R_ASIS', { up: 38 }), 'L_ASIS', { up: 38 });
    expect(failing(both)).toEqual([]);
  });

  it.each([wands22, medial20])(
    'what $name says is not seen is a blind spot, alone, with followers or on both sides',
    (set) => {
      const { body, outcomes } = outcomesOf(adult, set);
      const blind = findBlindSpots(body, outcomes, null).filter(isBlind);
      expect(set.unseen.length).toBeGreaterThan(1);
      for (const { markers, says } of set.unseen) {
        const found = blind.filter((spot) => spot.markers.some((label) => markers.includes(label)));
        expect(found, says).not.toEqual([]);
      }
    },
  );

  it('a trochanter with its wand set on it is a blind spot, and one moved by itself is not', () => {
    expect(isBlind(find('with-followers', 'R_GT', 'forward'))).toBe(true);
    expect(find('alone', 'R_GT', 'forward').fails!.rule).toBe('thigh-wand-in-line.right');
  });

  it('says what would show a blind spot, with the change computed on the body', () => {
    const legLength = find('both-sides-alike', 'R_ASIS', 'up').openers.find(({ name }) => name === 'legLength')!;
    // The line from the ASIS to the inner ankle is nearly upright.
    expect(legLength.changePerMm).toBeGreaterThan(0.95);
    expect(legLength.changePerMm).toBeLessThanOrEqual(1);
    const width = find('both-sides-alike', 'R_ASIS', 'outward').openers.find(({ name }) => name === 'pelvisWidth')!;
    expect(width.changePerMm).toBeCloseTo(2, 6);
    expect(find('with-followers', 'R_GT', 'forward').openers.map(({ name }) => name)).toContain('kneeBend');
  });

  it('a marker is named no sooner than a rule fails, and sooner on a wand than on a landmark', () => {
    for (const { fails, namedFromMm } of spots)
      if (namedFromMm !== null) expect(namedFromMm).toBeGreaterThanOrEqual(Math.floor(fails!.mm));
    expect(find('alone', 'R_SW', 'forward').namedFromMm!).toBeLessThan(find('alone', 'R_LE', 'forward').namedFromMm!);
  });

  it('never says anything of a marker that only tracks', () => {
    const { body, outcomes } = outcomesOf(adult, medial20);
    const seen = findBlindSpots(body, outcomes, null);
    expect(seen.length).toBeGreaterThan(50);
    expect(seen.filter(({ markers }) => markers.some((label) => /_(TW|SW)$/.test(label)))).toEqual([]);
    expect(seen.every(({ namedFromMm }) => namedFromMm === null)).toBe(true);
  });

  it('names the marker for which checks wait where one is not on', () => {
    const without = remove(remove(adult, 'R_ME'), 'L_ME');
    const { body, outcomes } = outcomesOf(without);
    const hidden = findBlindSpots(body, outcomes, null).filter(({ openers }) =>
      openers.some(({ by }) => by === 'marker'),
    );
    expect(
      new Set(hidden.flatMap(({ openers }) => openers.filter(({ by }) => by === 'marker').map((o) => o.name))),
    ).toEqual(new Set(['R_ME', 'L_ME']));
  });
});
