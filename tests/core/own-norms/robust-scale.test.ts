import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../sample-trials/seeded-random.ts';
import { robustScale } from '../../../src/core/own-norms/robust-scale.ts';

/** By its definition: every distance, sorted. */
function byDefinition(values: readonly number[]): number {
  const distances = values.flatMap((a, i) => values.slice(0, i).map((b) => Math.abs(a - b))).sort((a, b) => a - b);
  const h = Math.floor(values.length / 2) + 1;
  return distances[(h * (h - 1)) / 2 - 1]!;
}
const normal = (count: number, seed: number) => {
  const random = seededRandom(seed);
  return Float64Array.from({ length: count }, () => random.bell(1));
};

/**
 * Published data with Qn as R's robustbase gives it without its correction for few values (finite.corr = FALSE), as
 * printed in the tests of statsmodels, statsmodels/robust/tests/test_scale.py: copper in flour (Venables and Ripley 2002,
 * section 5.5), the plant data of Brownlee 1965 ("stack loss"), and the whole numbers to 39.
 */
const published: readonly (readonly [string, number, readonly number[]])[] = [
  [
    'copper',
    0.73231,
    [
      2.2, 2.2, 2.4, 2.4, 2.5, 2.7, 2.8, 2.9, 3.03, 3.03, 3.1, 3.37, 3.4, 3.4, 3.4, 3.5, 3.6, 3.7, 3.7, 3.7, 3.7, 3.77,
      5.28, 28.95,
    ],
  ],
  ['stack loss', 8.87656, [42, 37, 37, 28, 18, 18, 19, 20, 15, 14, 14, 13, 11, 12, 8, 7, 8, 8, 9, 15, 15]],
  ['air flow', 8.87656, [80, 80, 75, 62, 62, 62, 62, 62, 58, 58, 58, 58, 58, 58, 50, 50, 50, 50, 50, 56, 70]],
  ['water', 2.21914, [27, 27, 25, 24, 22, 23, 24, 24, 23, 18, 18, 17, 18, 19, 18, 18, 19, 19, 20, 20, 20]],
  ['acid', 4.43828, [89, 88, 90, 87, 87, 87, 93, 93, 87, 80, 89, 88, 82, 93, 89, 86, 72, 79, 80, 82, 91]],
  ['whole numbers', 13.3148, Array.from({ length: 40 }, (_, index) => index)],
];

describe('the robust scale', () => {
  it.each(published)('of %s is the published one', (_, printed, values) => {
    const n = values.length;
    const forFew = n % 2 === 1 ? n / (n + 1.4) : n / (n + 3.8);
    expect(robustScale(Float64Array.from(values)) / forFew).toBeCloseTo(printed, 4);
  });

  it('is the rank of all distances that its definition asks for', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -40, max: 40 }), { minLength: 10, maxLength: 60 }), (values) => {
        const n = values.length;
        const factor = 2.21914 * (n % 2 === 1 ? n / (n + 1.4) : n / (n + 3.8));
        expect(robustScale(Float64Array.from(values))).toBeCloseTo(factor * byDefinition(values), 9);
      }),
      { numRuns: 300 },
    );
  });

  it('is the standard deviation of normal values', () => {
    for (const seed of [1, 2, 3]) expect(robustScale(normal(20_000, seed))).toBeCloseTo(1, 1);
  });

  it('does not mind what a fifth of the values are', () => {
    const values = normal(500, 4);
    for (let i = 0; i < 100; i++) values[i] = 1e6 * (i + 1);
    const found = robustScale(values);
    expect(found).toBeGreaterThan(1);
    // Two good values make 0.64 of all pairs; 0.25 / 0.64 of their distances lie under 1.60 times the quarter's.
    expect(found).toBeLessThan(1.75);
  });

  it('has the breakdown of a half: nothing under it carries it off', () => {
    const values = normal(101, 5);
    for (let i = 0; i < 49; i++) values[i] = 1e9 + i * 1e6;
    expect(robustScale(values)).toBeLessThan(1e3);
  });

  it('is nothing where more than half are the same, and no number for one value', () => {
    expect(robustScale(Float64Array.from([2, 2, 2, 2, 9]))).toBe(0);
    expect(robustScale(Float64Array.from([2]))).toBeNaN();
  });
});
