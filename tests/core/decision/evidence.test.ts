import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { displacementOf, logEvidenceUnusual, whiten } from '../../../src/core/decision/evidence.ts';
import { choleskyInPlace, logDeterminant, solveLowerInPlace } from '../../../src/core/geometry/cholesky.ts';
import { logEvidence } from './closed-form.ts';

const real = fc.double({ min: -4, max: 4, noNaN: true });
const problem = fc.record({ n: fc.integer({ min: 2, max: 9 }), k: fc.integer({ min: 1, max: 5 }) }).chain(({ n, k }) =>
  fc.record({
    n: fc.constant(n),
    factor: fc.array(real, { minLength: n * n, maxLength: n * n }),
    columns: fc.array(fc.array(real, { minLength: n, maxLength: n }), { minLength: k, maxLength: k }),
    deviation: fc.array(real, { minLength: n, maxLength: n }),
    variance: fc.array(fc.double({ min: 0.1, max: 9, noNaN: true }), { minLength: k, maxLength: k }),
  }),
);

function covarianceOf(n: number, factor: readonly number[]): Float64Array {
  const matrix = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      for (let c = 0; c < n; c++) matrix[i * n + j]! += factor[i * n + c]! * factor[j * n + c]!;
      if (i === j) matrix[i * n + j]! += 1;
    }
  }
  return matrix;
}

/** Log of the normal density N(0, covariance), without the constant that all share. */
function logDensity(covariance: Float64Array, deviation: readonly number[]): number {
  const n = deviation.length;
  const lower = covariance.slice();
  expect(choleskyInPlace(lower, n)).toBe(true);
  const white = Float64Array.from(deviation);
  solveLowerInPlace(lower, n, white);
  return -(white.reduce((sum, value) => sum + value * value, 0) + logDeterminant(lower, n)) / 2;
}

describe('the log evidence ratio of a displacement', () => {
  it("is the ratio of the densities N(0, Sigma + G S G') and N(0, Sigma), to 1e-9", () => {
    fc.assert(
      fc.property(problem, ({ n, factor, columns, deviation, variance }) => {
        const covariance = covarianceOf(n, factor);
        const model = whiten(
          { deviation: Float64Array.from(deviation), covariance },
          columns.map((column) => Float64Array.from(column)),
        )!;
        const wider = covariance.slice();
        columns.forEach((column, c) => {
          for (let i = 0; i < n; i++)
            for (let j = 0; j < n; j++) wider[i * n + j]! += variance[c]! * column[i]! * column[j]!;
        });
        const found = logEvidence(model, [...columns.keys()], Float64Array.from(variance));
        const expected = logDensity(wider, deviation) - logDensity(covariance, deviation);
        expect(Math.abs(found - expected)).toBeLessThan(1e-9 * Math.max(1, Math.abs(expected)));
        const unusual = logDensity(
          covariance.map((value) => value * 9),
          deviation,
        );
        const ratio = logEvidenceUnusual(model, 9);
        expect(Math.abs(ratio - (unusual - logDensity(covariance, deviation)))).toBeLessThan(
          1e-9 * Math.max(1, Math.abs(ratio)),
        );
      }),
      { numRuns: 300 },
    );
  });

  it('does not depend on columns that are not chosen, nor on their order', () => {
    const model = whiten(
      { deviation: Float64Array.of(3, 1, -2), covariance: Float64Array.of(2, 0.3, 0, 0.3, 1, 0.1, 0, 0.1, 4) },
      [Float64Array.of(1, 0, 0), Float64Array.of(0, 1, 1), Float64Array.of(0.5, -1, 2)],
    )!;
    const variance = Float64Array.of(4, 9, 1);
    expect(logEvidence(model, [0, 2], variance)).toBeCloseTo(logEvidence(model, [2, 0], variance), 12);
    expect(logEvidence(model, [], variance)).toBe(0);
  });
});

describe('the most probable displacement', () => {
  it('of one column seen by one rule is the shrunken deviation, with the variance of a product of normals', () => {
    // Rule variance 4, slope 2, deviation 10, prior variance 9: precision 1/9 + 4/4, mean (2 * 10 / 4) / precision.
    const model = whiten({ deviation: Float64Array.of(10), covariance: Float64Array.of(4) }, [Float64Array.of(2)])!;
    const { mean, covariance } = displacementOf(model, [0], Float64Array.of(9));
    expect(mean[0]).toBeCloseTo(5 / (1 / 9 + 1), 12);
    expect(covariance[0]).toBeCloseTo(1 / (1 / 9 + 1), 12);
  });
});

describe('a covariance that is none', () => {
  it('is refused', () => {
    expect(whiten({ deviation: Float64Array.of(1, 1), covariance: Float64Array.of(1, 2, 2, 1) }, [])).toBeNull();
  });
});
