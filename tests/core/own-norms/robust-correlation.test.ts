import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../sample-trials/seeded-random.ts';
import { asCorrelation, pairwiseCorrelation } from '../../../src/core/own-norms/robust-correlation.ts';

/** Two columns with a correlation of 0.6, a third by itself. */
function columns(count: number, seed: number): Float64Array[] {
  const random = seededRandom(seed);
  const draws = Array.from({ length: count }, () => [random.bell(1), random.bell(1), random.bell(1)] as const);
  return [
    Float64Array.from(draws, ([a]) => a),
    Float64Array.from(draws, ([a, b]) => 0.6 * a + 0.8 * b),
    Float64Array.from(draws, ([, , c]) => c),
  ];
}

describe('correlation pair by pair', () => {
  it('is that of the draws, and does not mind single values far off', () => {
    const clean = pairwiseCorrelation(columns(2000, 1), 30);
    expect(clean[1]!).toBeCloseTo(0.6, 1);
    expect(Math.abs(clean[2]!)).toBeLessThan(0.08);
    const dirty = columns(2000, 1);
    dirty.forEach((column, which) => {
      for (let person = which; person < 2000; person += 20) column[person] = 50;
    });
    expect(Math.abs(pairwiseCorrelation(dirty, 30)[1]! - 0.6)).toBeLessThan(0.12);
  });

  it('is none where too few have both', () => {
    const some = columns(100, 2);
    some[0]!.fill(Number.NaN, 29);
    const found = pairwiseCorrelation(some, 30);
    expect(found[1]).toBeNaN();
    expect(found[0]).toBe(1);
    expect(found[5]).not.toBeNaN();
  });

  it('is made a matrix that can be one, the nearest by its eigenvalues', () => {
    // Three that are all against each other by 0.9 cannot be.
    const odd = Float64Array.from([1, -0.9, -0.9, -0.9, 1, -0.9, -0.9, -0.9, 1]);
    const made = asCorrelation(odd, 3);
    // Its eigenvalues are -0.8, 1.9, 1.9; without the first all pairs are alike and sum to nothing: -1/2.
    for (const at of [1, 2, 5]) expect(made[at]!).toBeCloseTo(-0.5, 9);
    for (const at of [0, 4, 8]) expect(made[at]!).toBe(1);
    const right = Float64Array.from([1, 0.3, 0.3, 1]);
    expect(asCorrelation(right, 2)).toBe(right);
  });
});
