import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { displace, remove, swapLabels, turnWand } from '../../../sample-trials/plant-fault.ts';
import { compareCaptures } from '../../../src/core/captures/compare-captures.ts';
import { placedByHand, symmetricAdult } from '../../support/ordinary-people.ts';
import { standsAgain } from '../../support/stand-again.ts';
import { checkPositions } from '../../support/still-trial.ts';
import { buildMove, buildReport } from '../report/build-report.ts';

const adult = symmetricAdult();
/** The same adult a step further on, knees a little bent: nobody stands twice in exactly the same way. */
const again = symmetricAdult({ trunkLeanDeg: -1.5, pelvicSlopeDeg: 14 });

function compare(before: MarkerPositions, now: MarkerPositions) {
  return compareCaptures(checkPositions(before), checkPositions(now, { headingDeg: 40, standsAtMm: [300, 120, 0] }));
}

describe('a step that was asked for', () => {
  const heelLow = displace(adult, 'L_HEEL', { up: -14 });

  it.each([
    [-14, 'not-moved', 'L_HEEL, left heel marker: not moved; 14 mm up was asked. The check still fails.'],
    [-9, 'part', 'L_HEEL, left heel marker: moved 5 mm up of the 14 mm asked; 9 mm remain. The check still fails.'],
    [-2, 'done', 'L_HEEL, left heel marker: moved 12 mm up of the 14 mm asked; 2 mm remain. The check passes now.'],
    [0, 'done', 'L_HEEL, left heel marker: moved 14 mm up of the 14 mm asked; nothing remains. The check passes now.'],
    [
      12,
      'too-far',
      'L_HEEL, left heel marker: moved 26 mm up, 12 mm more than the 14 mm asked. The check still fails.',
    ],
    [
      -24,
      'other-way',
      'L_HEEL, left heel marker: moved 10 mm the other way; 14 mm up was asked, so 24 mm remain. The check still fails.',
    ],
  ])('left the heel marker at %d mm: %s', (up, result, says) => {
    const { kind, steps } = compare(heelLow, displace(again, 'L_HEEL', { up }));
    expect(kind).toBe('captured-again');
    expect(steps.map((step) => [step.result, step.says])).toEqual([[result, says]]);
    expect(steps[0]!.askedMm).toBeCloseTo(14, 0);
    expect(steps[0]!.movedMm).toBeCloseTo(14 + up, 0);
    expect(steps[0]!.remainsMm! + steps[0]!.movedMm!).toBeCloseTo(steps[0]!.askedMm!, 9);
  });

  it('is told for a wand along the way it was to go', () => {
    const before = turnWand(adult, 'right', 'TW', 9);
    const { steps, settled } = compare(before, turnWand(again, 'right', 'TW', 4));
    expect(steps[0]!.result).toBe('part');
    expect(steps[0]!.says).toMatch(
      /^R_TW, right thigh wand: moved \d+ mm backward of the \d+ mm asked; \d+ mm remain\. The check passes now\.$/,
    );
    expect(settled.map(({ id }) => id)).toEqual(['thigh-wand-in-line.right']);
  });

  it('is told in people who stand a little differently each time', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const asked = buildMove({ mm: { forward: -14, up: 0, outward: 0 }, resolves: [] });
      const before = { ...checkPositions(displace(standsAgain(seed, 0), 'R_TW', { forward: 14 })), moves: [asked] };
      const now = checkPositions(displace(standsAgain(seed, 1), 'R_TW', { forward: 2 }));
      expect(Math.abs(compareCaptures(before, now).steps[0]!.movedMm! - 12), `person ${seed}`).toBeLessThan(1.5);
    }
  });

  it('may have been carried out on the other marker that explains the same', () => {
    const wand = buildMove({
      mm: { forward: -14, up: 0, outward: 0 },
      resolves: ['thigh-wand-in-line.right'],
      alternatives: [
        {
          action: 'palpate-again',
          marker: 'R_GT',
          landmark: 'greater trochanter',
          called: 'trochanter marker',
          side: 'right',
          mm: { forward: 30, up: 0, outward: 0 },
          probability: null,
          resolves: ['thigh-wand-in-line.right'],
          instruction: 'Palpate again.',
          confirmBy: '',
          why: '',
        },
      ],
    });
    const before = { ...checkPositions(adult), moves: [wand] };
    const { steps } = compareCaptures(before, checkPositions(displace(again, 'R_GT', { forward: 30 })));
    expect(steps[0]).toMatchObject({ marker: 'R_GT', instead: true, result: 'done', action: 'palpate-again' });
    expect(steps[0]!.says).toMatch(
      /^Instead, R_GT, right trochanter marker: moved about 30 mm forward of the 30 mm asked; /,
    );
  });

  it('leaves a palpated marker on its bone without reproach', () => {
    const palpate = buildMove({ action: 'palpate-again', marker: 'S1', side: 'midline', called: 'sacral marker' });
    const before = {
      ...checkPositions(adult),
      moves: [{ ...palpate, mm: { forward: 0, up: -30, left: 0 }, resolves: [] }],
    };
    expect(compareCaptures(before, checkPositions(again)).steps[0]!.says).toBe(
      'S1, sacral marker: left where it was; about 30 mm down was expected. If it is on the bone, record that in the session.',
    );
  });

  it('cannot be told for a marker that is not seen in both', () => {
    const { steps, missingNow } = compare(heelLow, remove(again, 'L_HEEL'));
    expect(steps[0]).toMatchObject({ result: 'cannot-tell', askedMm: null, movedMm: null, remainsMm: null });
    expect(steps[0]!.says).toBe(
      'L_HEEL, left heel marker: not seen in both captures, so how far it moved cannot be told. The check could not be made this time.',
    );
    expect(missingNow).toEqual(['L_HEEL']);
  });

  it('tells exchanged labels by the problem they were', () => {
    const swapped = swapLabels(adult, 'R_LE', 'L_LE');
    expect(compare(swapped, again).steps.map(({ result, says }) => [result, says])).toEqual([
      ['settled', 'Labels: corrected.'],
    ]);
    expect(compare(swapped, swapLabels(again, 'R_LE', 'L_LE')).steps[0]).toMatchObject({
      result: 'open',
      says: 'Labels: still exchanged.',
    });
  });

  it('tells standing again by the stance', () => {
    const bent = (kneeFlexionDeg: number) => {
      const leg = { kneeTurnDeg: 2.5, tibialTorsionDeg: 28, footProgressionDeg: 11, thighExtraMm: 0, shankExtraMm: 0 };
      const rest = { malleolusHeightExtraMm: 0, footForwardMm: 0, footSupinationDeg: 0 };
      return symmetricAdult({ left: { ...leg, ...rest, kneeFlexionDeg } });
    };
    const { steps } = compare(bent(43), again);
    expect(steps.map(({ action, result }) => [action, result])).toEqual([['stand-again', 'settled']]);
    expect(steps[0]!.says).toMatch(/^Standing again: nothing outside the usual any more\./);
  });
});

describe('what changed otherwise', () => {
  it('names checks that fail only now, and markers that are seen again', () => {
    const { newlyFailing, stillFailing, seenNow } = compare(
      remove(adult, 'R_MET5'),
      displace(again, 'L_HEEL', { up: 20 }),
    );
    expect(newlyFailing.map(({ id }) => id)).toEqual(['heel-level.left']);
    expect(stillFailing).toEqual([]);
    expect(seenNow).toEqual(['R_MET5']);
  });

  it('is nothing for another person', () => {
    expect(compare(placedByHand(3), placedByHand(11))).toMatchObject({ kind: 'other-body', steps: [] });
  });

  it('is nothing where hardly a marker is in both', () => {
    expect(compareCaptures(buildReport(), buildReport())).toMatchObject({ kind: 'cannot-compare', steps: [] });
  });

  it('is no new capture when the labels of one were corrected', () => {
    const before = checkPositions(swapLabels(adult, 'R_LE', 'L_LE'));
    expect(compareCaptures(before, checkPositions(adult)).kind).toBe('processed-again');
  });
});
