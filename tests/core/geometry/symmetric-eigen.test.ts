import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { symmetricEigen } from '../../../src/core/geometry/symmetric-eigen.ts';

describe('eigenvalues of a symmetric matrix', () => {
  it('of the second-difference matrix are 2 - 2 cos(k pi / (n + 1)) (a textbook result)', () => {
    const n = 12;
    const matrix = new Float64Array(n * n);
    for (let i = 0; i < n; i++) {
      matrix[i * n + i] = 2;
      if (i + 1 < n) matrix[i * n + i + 1] = matrix[(i + 1) * n + i] = -1;
    }
    const found = [...symmetricEigen(matrix, n).values].sort((a, b) => a - b);
    found.forEach((value, k) => {
      expect(value).toBeCloseTo(2 - 2 * Math.cos(((k + 1) * Math.PI) / (n + 1)), 12);
    });
  });

  it('give the matrix back, with vectors at right angles to each other', () => {
    fc.assert(
      fc.property(
        fc
          .integer({ min: 1, max: 7 })
          .chain((n) => fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: n * n, maxLength: n * n })),
        (entries) => {
          const n = Math.sqrt(entries.length);
          const matrix = Float64Array.from(entries, (_, at) => {
            const [i, j] = [Math.floor(at / n), at % n];
            return entries[Math.min(i, j) * n + Math.max(i, j)]!;
          });
          const { values, vectors } = symmetricEigen(matrix, n);
          for (let i = 0; i < n; i++)
            for (let j = 0; j < n; j++) {
              const back = values.reduce((sum, value, k) => sum + value * vectors[k]![i]! * vectors[k]![j]!, 0);
              const dot = vectors[i]!.reduce((sum, value, k) => sum + value * vectors[j]![k]!, 0);
              expect(back).toBeCloseTo(matrix[i * n + j]!, 9);
              expect(dot).toBeCloseTo(i === j ? 1 : 0, 9);
            }
        },
      ),
    );
  });
});
