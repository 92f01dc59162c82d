import { describe, expect, it } from 'vitest';
import {
  landmarkOf,
  roundMm,
  type SlideAmount,
  sayAlong,
  sayDistances,
  whose,
} from '../../../src/core/moves/move-words.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';
import { sessionWith } from '../../support/still-trial.ts';

const marker = (label: string) => wands22.markers.find((one) => one.label === label)!;
const amounts = (...given: [SlideAmount['direction'], number][]): SlideAmount[] =>
  given.map(([direction, mm]) => ({ direction, mm }));

describe('the way along the skin', () => {
  it.each([
    ['R_HEEL', amounts(['up', 11]), 'up, away from the sole'],
    ['R_HEEL', amounts(['up', -11]), 'down, toward the sole'],
    ['L_TW', amounts(['forward', -15]), 'backward, toward the hamstrings'],
    ['L_LE', amounts(['forward', 12], ['up', 3]), 'forward, toward the kneecap'],
    ['L_LE', amounts(['forward', 12], ['up', -4]), 'forward, toward the kneecap, and down, toward the foot'],
    ['R_ASIS', amounts(['outward', -20], ['up', 21]), 'up, toward the head, and inward, toward the midline'],
    ['S1', amounts(['outward', 20]), "toward the patient's left"],
    ['S1', amounts(['outward', -20]), "toward the patient's right"],
  ] as const)('of %s by %o is "%s"', (label, given, expected) => {
    expect(sayAlong(marker(label), given)).toBe(expected);
  });

  it('is the same whatever order the amounts come in', () => {
    const [a, b] = amounts(['forward', 12], ['up', -11]) as [SlideAmount, SlideAmount];
    expect(sayAlong(marker('L_LE'), [a, b])).toBe(sayAlong(marker('L_LE'), [b, a]));
  });
});

describe('distances', () => {
  it.each([
    ['R_HEEL', 11.4, 11],
    ['R_HEEL', 0.2, 1],
    ['R_TW', 14.6, 15],
    ['R_LE', 11.4, 10],
    ['R_LE', 12.6, 15],
    ['R_LE', 1, 5],
    ['S1', 62.4, 60],
  ])('of %s: %d mm is said as %d, whole where set by eye, in fives where palpated', (label, mm, said) => {
    expect(roundMm(marker(label), mm)).toBe(said);
  });

  it('are said with the way, without a sign', () => {
    expect(sayDistances(marker('R_HEEL'), amounts(['up', -11.2]))).toBe('11 mm down, toward the sole');
    expect(sayDistances(marker('S1'), amounts(['outward', -23], ['up', 14]))).toBe(
      "25 mm toward the patient's right, and 15 mm up, toward the head",
    );
  });
});

describe('whose marker it is', () => {
  it("is the patient's right or left, never the reader's", () => {
    expect(whose(marker('R_HEEL'))).toBe("the patient's right heel marker");
    expect(whose(marker('L_TW'))).toBe("the patient's left thigh wand");
    expect(whose(marker('S1'))).toBe("the patient's sacral marker");
  });
});

describe('a landmark', () => {
  const { variants } = wands22;
  const session = sessionWith({ variants: [{ id: 'foot-in-supination', side: 'left' }] });

  it('is the one the recorded variant names, on its side alone', () => {
    expect(landmarkOf(marker('L_MET5'), session, variants)).toBe('head of the second metatarsal');
    expect(landmarkOf(marker('R_MET5'), session, variants)).toBe('head of the fifth metatarsal');
    expect(landmarkOf(marker('L_HEEL'), session, variants)).toBe(marker('L_HEEL').landmark);
  });

  it('of a variant without a side is that of both', () => {
    const both = sessionWith({ variants: [{ id: 'foot-in-supination', side: null }] });
    for (const label of ['L_MET5', 'R_MET5']) {
      expect(landmarkOf(marker(label), both, variants)).toBe('head of the second metatarsal');
    }
  });
});
