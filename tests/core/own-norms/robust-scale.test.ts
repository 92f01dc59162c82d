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

describe('the robust scale', () => {
  it('is the rank of all distances that its definition asks for', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -40, max: 40 }), { minLength: 10, maxLength: 60 }), (values) => {
        const n = values.length;
        const factor = 2.2219 * (n % 2 === 1 ? n / (n + 1.4) : n / (n + 3.8));
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
