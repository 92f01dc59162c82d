import { describe, expect, it } from 'vitest';
import { balancedPart } from '../../../src/core/study/balanced-part.ts';
import { Judge } from '../../../src/core/study/judge-values.ts';

/** A table as captures of a study: subject, then assessor, then session. */
function judged(table: readonly (readonly (readonly number[])[])[]) {
  const captures = table.flatMap((row, s) =>
    row.flatMap((sessions, a) =>
      sessions.map((value, k) => ({ subject: `V${s}`, assessor: `A${a}`, session: `${k + 1}`, value })),
    ),
  );
  const values = captures.map(({ value }) => value);
  return new Judge().judge(captures, balancedPart(captures, () => true)!, values);
}
const printed = (value: number, decimals: number) => Number(value.toFixed(decimals));

/** Shrout and Fleiss 1979, Psychol Bull 86:420-428, table 2: six targets, four judges. */
const shroutFleiss = [
  [9, 2, 5, 8],
  [6, 1, 3, 2],
  [8, 4, 6, 8],
  [7, 1, 2, 6],
  [10, 5, 6, 9],
  [6, 2, 4, 7],
];
/** Bland and Altman 1986, Lancet i:307-310: the first readings of 17 people by two meters. */
const wright = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];
const mini = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];

describe('a quantity of a study', () => {
  it('with one session each has the ICC(2,1) of Shrout and Fleiss as printed, with its interval', () => {
    const { iccBetween, iccWithin, semBetween } = judged(shroutFleiss.map((row) => row.map((value) => [value])));
    expect(printed(iccBetween!.value, 2)).toBe(0.29);
    expect(iccBetween!.interval!.map((end) => printed(end, 2))).toEqual([0.02, 0.76]);
    expect(semBetween!.value).toBeCloseTo(2.5028, 4);
    expect(iccWithin).toBeNull();
  });

  it('with one assessor has the ICC(1,1) of Shrout and Fleiss as printed', () => {
    const { iccWithin, iccBetween, semWithin } = judged(shroutFleiss.map((row) => [row]));
    expect(printed(iccWithin!.value, 2)).toBe(0.17);
    expect(semWithin!.value).toBeCloseTo(Math.sqrt(6.2639), 4);
    expect(iccBetween).toBeNull();
  });

  it('has the limits of agreement of Bland and Altman between two assessors', () => {
    const { between } = judged(wright.map((value, index) => [[value], [mini[index]!]]));
    const { limits, of } = between!;
    expect(of).toEqual(['A0', 'A1']);
    expect(printed(limits!.meanDifference, 1)).toBe(-2.1);
    expect(printed(limits!.sdDifference, 1)).toBe(38.8);
    expect(limits!.meanInterval.map((end) => printed(end, 1))).toEqual([-22, 17.8]);
  });

  it('draws no limits from fewer than six pairs', () => {
    const five = judged(wright.slice(0, 5).map((value, index) => [[value], [mini[index]!]])).between!;
    expect([five.pairs.length, five.limits]).toEqual([5, null]);
  });

  it('tells what an assessor always does from what differs from day to day, and who lies furthest', () => {
    // Assessor A1 always 6 above A0; days differ by 1 either way, in one cell by 4.
    const { offsets, variance, semWithin, furthest } = judged([
      [
        [10, 11],
        [16, 17],
      ],
      [
        [20, 19],
        [26, 25],
      ],
      [
        [30, 31],
        [36, 40],
      ],
    ]);
    expect(offsets.map(({ by }) => printed(by, 2))).toEqual([-3.25, 3.25]);
    // Half the squared differences, averaged over six cells: (5 x 0.5 + 8) / 6.
    expect(semWithin!.value).toBeCloseTo(Math.sqrt(10.5 / 6), 12);
    expect(variance.assessor!).toBeGreaterThan(15);
    expect(furthest).toMatchObject({ subject: 'V2', assessor: 'A1', session: '2' });
  });

  it('has no share below nothing, at neither end of its interval', () => {
    // The subjects are all alike and the assessors are not: the published interval lies below nothing.
    const { iccBetween } = judged([
      [[1], [5], [9]],
      [[9], [1], [5]],
      [[5], [9], [1]],
      [[1], [9], [5]],
    ]);
    expect(iccBetween!.value).toBe(0);
    const [low, high] = iccBetween!.interval!;
    expect(low).toBe(0);
    expect(high).toBeGreaterThanOrEqual(0);
  });
});
