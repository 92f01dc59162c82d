import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  choleskyInPlace,
  logDeterminant,
  solveLowerInPlace,
  solveLowerTransposedInPlace,
} from '../../../src/core/geometry/cholesky.ts';

/** A'A plus the identity: positive definite whatever A. */
const definite = fc.integer({ min: 1, max: 7 }).chain((n) =>
  fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: n * n, maxLength: n * n }).map((a) => {
    const matrix = new Float64Array(n * n);
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        for (let k = 0; k < n; k++) matrix[i * n + j]! += a[k * n + i]! * a[k * n + j]!;
        if (i === j) matrix[i * n + j]! += 1;
      }
    }
    return { n, matrix };
  }),
);

describe('a Cholesky factor', () => {
  it('solves what its matrix multiplies', () => {
    fc.assert(
      fc.property(definite, ({ n, matrix }) => {
        const lower = matrix.slice();
        expect(choleskyInPlace(lower, n)).toBe(true);
        const wanted = Float64Array.from({ length: n }, (_, i) => i - 1.5);
        const right = Float64Array.from({ length: n }, (_, i) =>
          wanted.reduce((sum, value, j) => sum + matrix[i * n + j]! * value, 0),
        );
        solveLowerInPlace(lower, n, right);
        solveLowerTransposedInPlace(lower, n, right);
        right.forEach((value, i) => expect(value).toBeCloseTo(wanted[i]!, 8));
      }),
    );
  });

  it('has the determinant of a matrix known by hand, and refuses one that is not positive definite', () => {
    const lower = Float64Array.of(4, 0, 2, 3);
    expect(choleskyInPlace(lower, 2)).toBe(true);
    expect(logDeterminant(lower, 2)).toBeCloseTo(Math.log(8), 12);
    expect(choleskyInPlace(Float64Array.of(1, 0, 2, 1), 2)).toBe(false);
    expect(choleskyInPlace(Float64Array.of(Number.NaN), 1)).toBe(false);
  });
});
