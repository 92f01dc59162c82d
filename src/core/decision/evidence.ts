import { choleskyInPlace, solveLowerInPlace, solveLowerTransposedInPlace } from '../geometry/cholesky.ts';
import { addsNothing } from './independent-rows.ts';
import type { WellMarked } from './well-marked.ts';

/**
 * The linear Gaussian model in whitened form. With deviation d ~ N(0, Sigma) for a well-marked person, columns G of
 * sensitivities and a displacement u ~ N(0, S) added: H = G' Sigma^-1 G, b = G' Sigma^-1 d, and an explanation that
 * displaces the columns A has the log evidence ratio against "nothing is wrong"
 *
 *   1/2 b_A' (S_A^-1 + H_AA)^-1 b_A - 1/2 log |I + S_A H_AA|,
 *
 * which equals the ratio of the densities N(0, Sigma + G_A S_A G_A') and N(0, Sigma) at d.
 */
export interface WhitenedModel {
  readonly columns: number;
  readonly rules: number;
  /** H, row-major columns x columns. */
  readonly information: Float64Array;
  /** b. */
  readonly pull: Float64Array;
  /** d' Sigma^-1 d. */
  readonly surprise: number;
  /** Lower triangle of Sigma. */
  readonly lower: Float64Array;
  /** L^-1 G, column after column. */
  readonly whitenedColumns: readonly Float64Array[];
}

/** Null where the covariance has no full rank, so that nothing can be weighed with all of these rules. */
export function whiten({ deviation, covariance }: WellMarked, columns: readonly Float64Array[]): WhitenedModel | null {
  const n = deviation.length;
  const lower = covariance.slice();
  if (!choleskyInPlace(lower, n) || !hasFullRank(lower, covariance, n)) return null;
  const whitenedDeviation = deviation.slice();
  solveLowerInPlace(lower, n, whitenedDeviation);
  const whitenedColumns = columns.map((column) => {
    const copy = column.slice();
    solveLowerInPlace(lower, n, copy);
    return copy;
  });
  const k = columns.length;
  const information = new Float64Array(k * k);
  const pull = new Float64Array(k);
  for (let i = 0; i < k; i++) {
    const a = whitenedColumns[i]!;
    pull[i] = product(a, whitenedDeviation);
    for (let j = 0; j <= i; j++) {
      const value = product(a, whitenedColumns[j]!);
      information[i * k + j] = value;
      information[j * k + i] = value;
    }
  }
  return {
    columns: k,
    rules: n,
    information,
    pull,
    surprise: product(whitenedDeviation, whitenedDeviation),
    lower,
    whitenedColumns,
  };
}

function hasFullRank(lower: Float64Array, covariance: Float64Array, n: number): boolean {
  for (let i = 0; i < n; i++) {
    if (addsNothing(lower[i * n + i]! ** 2, covariance[i * n + i]!)) return false;
  }
  return true;
}

/** Most probable displacement of the chosen columns, mm, and its covariance (row-major k x k). */
export function displacementOf(
  model: WhitenedModel,
  chosen: readonly number[],
  varianceMm2: Float64Array,
): { mean: Float64Array; covariance: Float64Array } {
  const k = chosen.length;
  const precision = new Float64Array(k * k);
  const mean = new Float64Array(k);
  chosen.forEach((a, i) => {
    chosen.forEach((c, j) => {
      precision[i * k + j] = model.information[a * model.columns + c]!;
    });
    precision[i * k + i]! += 1 / varianceMm2[a]!;
    mean[i] = model.pull[a]!;
  });
  const covariance = new Float64Array(k * k);
  if (!choleskyInPlace(precision, k)) return { mean: mean.fill(Number.NaN), covariance: covariance.fill(Number.NaN) };
  solveLowerInPlace(precision, k, mean);
  solveLowerTransposedInPlace(precision, k, mean);
  for (let i = 0; i < k; i++) {
    const unit = new Float64Array(k);
    unit[i] = 1;
    solveLowerInPlace(precision, k, unit);
    solveLowerTransposedInPlace(precision, k, unit);
    for (let j = 0; j < k; j++) covariance[j * k + i] = unit[j]!;
  }
  return { mean, covariance };
}

/** Log evidence ratio of a body that is well marked but unusual: the same mean, `inflation` times the covariance. */
export function logEvidenceUnusual({ rules, surprise }: WhitenedModel, inflation: number): number {
  return (surprise * (1 - 1 / inflation)) / 2 - (rules / 2) * Math.log(inflation);
}

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
