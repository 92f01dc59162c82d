import { describe, expect, it } from 'vitest';
import {
  differenceInterval,
  lagOneAutocorrelation,
  mean,
  meanInterval,
  sampleSd,
  sdInterval,
} from '../../../src/audit/analysis/sample-statistics.ts';

const alternating = (base: number): number[] => [
  base + 0.2,
  ...Array.from({ length: 1000 }, (_, index) => base + (index % 2 === 0 ? 0.1 : 0.3)),
];

describe('NIST StRD, univariate summary statistics (https://www.itl.nist.gov/div898/strd; certified)', () => {
  it('NumAcc1', () => {
    const values = [10000001, 10000003, 10000002];
    expect(mean(values)).toBe(10000002);
    expect(sampleSd(values)).toBe(1);
    // -0.5: from memory, and by hand (-1 * 1 + 1 * 0) / 2.
    expect(lagOneAutocorrelation(values)).toBeCloseTo(-0.5, 12);
  });

  it.each([
    ['NumAcc2', 1, 13],
    ['NumAcc3', 1_000_000, 8],
    ['NumAcc4', 10_000_000, 8],
  ])('%s', (_, base, digits) => {
    const values = alternating(base);
    expect(mean(values)).toBeCloseTo(base + 0.2, digits);
    expect(sampleSd(values)).toBeCloseTo(0.1, digits);
    // -0.999: from memory.
    expect(lagOneAutocorrelation(values)).toBeCloseTo(-0.999, 6);
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
