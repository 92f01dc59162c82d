import { describe, expect, it } from 'vitest';
import { intraclassCorrelation } from '../../../src/core/repeatability/intraclass-correlation.ts';
import { limitsOfAgreement, withinSubjectSd } from '../../../src/core/repeatability/limits-of-agreement.ts';
import { mean, meanSquares, standardDeviation } from '../../../src/core/repeatability/mean-squares.ts';
import { detectable, studyComponents, studyMeanSquares } from '../../../src/core/repeatability/study-components.ts';

/** Shrout and Fleiss 1979, Psychol Bull 86:420-428, table 2: six targets, four judges. */
const shroutFleiss = [
  [9, 2, 5, 8],
  [6, 1, 3, 2],
  [8, 4, 6, 8],
  [7, 1, 2, 6],
  [10, 5, 6, 9],
  [6, 2, 4, 7],
];

describe('Shrout and Fleiss 1979', () => {
  const ms = meanSquares(shroutFleiss);

  it('mean squares, as printed and to four digits', () => {
    expect(ms.between).toBeCloseTo(11.2417, 4);
    expect(ms.within).toBeCloseTo(6.2639, 4);
    expect(ms.judges).toBeCloseTo(32.4861, 4);
    expect(ms.error).toBeCloseTo(1.0194, 4);
  });

  it.each([
    [1, 'single', 0.17],
    [2, 'single', 0.29],
    [3, 'single', 0.71],
    [1, 'mean', 0.44],
    [2, 'mean', 0.62],
    [3, 'mean', 0.91],
  ] as const)('ICC(%i) of a %s is the printed %f', (model, of, printed) => {
    expect(Number(intraclassCorrelation(ms, model, of).value.toFixed(2))).toBe(printed);
  });

  it('95 %% intervals (widely used statistics software prints these for the same data; from memory)', () => {
    const of = (model: 1 | 2 | 3) => {
      const { low, high } = intraclassCorrelation(ms, model);
      return [low.toFixed(2), high.toFixed(2)].map(Number);
    };
    expect(of(1)).toEqual([-0.13, 0.72]);
    expect(of(2)).toEqual([0.02, 0.76]);
    expect(of(3)).toEqual([0.34, 0.95]);
  });

  it('standard error of measurement by agreement, and the smallest change that shows', () => {
    const { semBetween, semWithin, semConsistency, iccBetween } = studyComponents(
      studyMeanSquares(shroutFleiss.map((row) => row.map((value) => [value]))),
    );
    expect(semBetween).toBeCloseTo(2.5028, 4);
    expect(semConsistency).toBeCloseTo(1.0097, 4);
    // One session each does not tell how one assessor repeats.
    expect(semWithin).toBeNull();
    expect(detectable * semConsistency!).toBeCloseTo(2.7987, 3);
    expect(detectable * semBetween!).toBeCloseTo(1.96 * Math.SQRT2 * 2.5028, 3);
    // One session: the share of the person's own is ICC(2,1).
    expect(iccBetween).toBeCloseTo(intraclassCorrelation(ms, 2).value, 12);
  });
});

/** Bland and Altman 1986, Lancet i:307-310: peak flow of 17 people by two meters, twice each. */
const wright1 = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];
const wright2 = [490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421];
const mini1 = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];
const mini2 = [525, 415, 508, 444, 500, 625, 460, 390, 642, 432, 420, 605, 227, 467, 268, 370, 443];
const pairsOf = (a: readonly number[], b: readonly number[]) =>
  a.map((value, index): [number, number] => [value, b[index]!]);

describe('Bland and Altman 1986', () => {
  const agreement = limitsOfAgreement(pairsOf(wright1, mini1));

  it('mean difference and its standard deviation, as printed', () => {
    expect(agreement.pairs).toBe(17);
    expect(Number(agreement.meanDifference.toFixed(1))).toBe(-2.1);
    expect(Number(agreement.sdDifference.toFixed(1))).toBe(38.8);
  });

  it('limits of agreement: the paper takes 2 SD where 1.96 is meant', () => {
    const { meanDifference, sdDifference, low, high } = agreement;
    expect(meanDifference - 2 * sdDifference).toBeCloseTo(-79.648, 3);
    expect(meanDifference + 2 * sdDifference).toBeCloseTo(75.413, 3);
    expect([low, high]).toEqual([expect.closeTo(-78.097, 3), expect.closeTo(73.862, 3)]);
  });

  it('standard errors of the mean and of a limit, and the intervals of the paper', () => {
    expect(agreement.meanError).toBeCloseTo(9.402, 3);
    expect(agreement.limitError).toBeCloseTo(16.285, 3);
    // Printed for the bias: -22.0 to 17.8 l/min.
    expect(agreement.meanInterval.map((x) => Number(x.toFixed(1)))).toEqual([-22, 17.8]);
  });

  it('within-subject standard deviation of each meter', () => {
    expect(withinSubjectSd(pairsOf(wright1, wright2))).toBeCloseTo(15.307, 3);
    expect(withinSubjectSd(pairsOf(mini1, mini2))).toBeCloseTo(19.911, 3);
  });
});

/** NIST Statistical Reference Datasets, univariate; NumAcc4 limits what double precision can hold. */
describe('figures with many digits and little spread', () => {
  const numAcc4 = [10000000.2, ...Array.from({ length: 1000 }, (_, index) => 10000000 + (index % 2 === 0 ? 0.1 : 0.3))];

  it('keep their spread', () => {
    expect(mean(numAcc4)).toBeCloseTo(10000000.2, 6);
    expect(standardDeviation(numAcc4)).toBeCloseTo(0.1, 8);
    expect(standardDeviation([10000001, 10000003, 10000002])).toBe(1);
  });
});
