import { describe, expect, it } from 'vitest';
import {
  differenceInterval,
  lagOneAutocorrelation,
  mean,
  meanInterval,
  sampleSd,
  sdInterval,
} from '../../../src/audit/analysis/sample-statistics.ts';
import { lew, lottery, mavro, michelso } from './nist-univariate.ts';

const alternating = (base: number): number[] => [
  base + 0.2,
  ...Array.from({ length: 1000 }, (_, index) => base + (index % 2 === 0 ? 0.1 : 0.3)),
];

/** Digits that agree with the certified value (the logarithm of the relative error). */
function digitsRight(value: number, certified: number): number {
  return value === certified ? 15 : -Math.log10(Math.abs(value - certified) / Math.abs(certified));
}

/**
 * Certified values as https://www.itl.nist.gov/div898/strd prints them; read in the help pages of the R package
 * Rqualification, https://github.com/ab9sq/Rqualification.
 */
describe('NIST StRD, univariate summary statistics', () => {
  it.each([
    ['Lew', lew, 200, -177.435, 277.332168044316, -0.307304800605679],
    ['Lottery', lottery, 218, 518.95871559633, 291.699727470969, -0.120948622967393],
    ['Mavro', mavro, 50, 2.001856, 0.000429123454003053, 0.937989183438248],
    ['Michelso', michelso, 100, 299.8524, 0.0790105478190518, 0.535199668621283],
    ['NumAcc1', [10000001, 10000003, 10000002], 3, 10000002, 1, -0.5],
    ['NumAcc2', alternating(1), 1001, 1.2, 0.1, -0.999],
  ])('%s, to the digits that are printed', (_, values, count, certifiedMean, certifiedSd, certifiedLag) => {
    expect(values).toHaveLength(count);
    expect(digitsRight(mean(values), certifiedMean)).toBeGreaterThan(14);
    // Values such as 2.0018 are not exact in binary: of the thirteenth digit on, the spread shows that.
    expect(digitsRight(sampleSd(values), certifiedSd)).toBeGreaterThan(12.5);
    expect(digitsRight(lagOneAutocorrelation(values), certifiedLag)).toBeGreaterThan(12.5);
  });

  it.each([
    ['NumAcc3', 1_000_000, 9],
    ['NumAcc4', 10_000_000, 8],
  ])('%s, as far as its values can be written in binary', (_, base, digits) => {
    const values = alternating(base);
    expect(digitsRight(mean(values), base + 0.2)).toBeGreaterThan(14);
    expect(digitsRight(sampleSd(values), 0.1)).toBeGreaterThan(digits);
    expect(digitsRight(lagOneAutocorrelation(values), -0.999)).toBeGreaterThan(digits);
  });
});

describe('intervals', () => {
  it('of a mean and of a spread: ten values, t 2.262157 and chi-square 2.700389, 19.022768 (tables; from memory)', () => {
    const values = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
    const sd = Math.sqrt(55 / 6);
    const half = (2.262157 * sd) / Math.sqrt(10);
    expect(meanInterval(values)![0]).toBeCloseTo(5.5 - half, 5);
    expect(meanInterval(values)![1]).toBeCloseTo(5.5 + half, 5);
    expect(sdInterval(values)![0]).toBeCloseTo(sd * Math.sqrt(9 / 19.022768), 5);
    expect(sdInterval(values)![1]).toBeCloseTo(sd * Math.sqrt(9 / 2.700389), 5);
  });

  it('are not given of two values', () => {
    expect(meanInterval([1, 2])).toBeNull();
    expect(sdInterval([1, 2])).toBeNull();
    expect(differenceInterval([1, 2], [1, 2, 3])).toBeNull();
  });

  it('of a difference: the same spread and number give the degrees of freedom of the pooled test', () => {
    // t 2.306004 at 8 degrees of freedom (table; from memory).
    const interval = differenceInterval([1, 2, 3, 4, 5], [11, 12, 13, 14, 15])!;
    expect(interval[0]).toBeCloseTo(10 - 2.306004, 4);
    expect(interval[1]).toBeCloseTo(10 + 2.306004, 4);
  });
});
