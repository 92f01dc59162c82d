import {
  choleskyInPlace,
  logDeterminant,
  solveLowerInPlace,
  solveLowerTransposedInPlace,
} from '../geometry/cholesky.ts';
import { displacementOf, type WhitenedModel } from './evidence.ts';
import { columnMarkersOf, columnsOf, type Explanation, logPriorOf } from './explanations.ts';

/** An explanation with its most probable displacement, found without the linear approximation where that converged. */
export interface RefinedExplanation extends Explanation {
  /** Displacement of each column, mm, and its covariance. */
  readonly displacementMm: Float64Array;
  readonly covariance: Float64Array;
  /** False where the search did not settle: then the linear figures stand. */
  readonly converged: boolean;
}

/** No marker is believed to be further off than this. */
const furthestMm = 60;
const mostIterations = 12;
/** The search has settled where a step betters the misfit by no more than this: a hundredth part of the odds. */
const settledCost = 0.02;
const leastDamping = 0.02;
const probeMm = 0.5;

/**
 * Damped Gauss-Newton from the linear answer: the deviation is evaluated with the markers put back by the displacement,
 * the sensitivities are taken anew at each step, and the evidence gets its Laplace term where the search settles.
 * @param deviationAt fills the deviation from well-marked for the markers moved back by a displacement (mm, per column)
 */
export function refineExplanation(
  model: WhitenedModel,
  explanation: Explanation,
  varianceMm2: Float64Array,
  deviationAt: (columns: readonly number[], displacementMm: Float64Array, deviation: Float64Array) => void,
): RefinedExplanation {
  const columns = columnsOf(explanation);
  const linear = displacementOf(model, columns, varianceMm2);
  const unsettled = { ...explanation, displacementMm: capped(linear.mean, explanation), covariance: linear.covariance };
  const k = columns.length;
  if (k === 0) return { ...unsettled, converged: true };

  const whitenedAt = (u: Float64Array): Float64Array => {
    const deviation = new Float64Array(model.rules);
    deviationAt(columns, u, deviation);
    solveLowerInPlace(model.lower, model.rules, deviation);
    return deviation;
  };
  const costOf = (u: Float64Array, deviation: Float64Array): number => {
    let sum = 0;
    for (let i = 0; i < model.rules; i++) sum += deviation[i]! ** 2;
    for (let i = 0; i < k; i++) sum += u[i]! ** 2 / varianceMm2[columns[i]!]!;
    return sum;
  };
  let u = unsettled.displacementMm;
  let deviation = whitenedAt(u);
  let cost = costOf(u, deviation);
  for (let iteration = 0; iteration < mostIterations && Number.isFinite(cost); iteration++) {
    const slopes = slopesAt(u, deviation, whitenedAt);
    const precision = precisionOf(slopes, columns, varianceMm2);
    if (!choleskyInPlace(precision, k)) break;
    const step = new Float64Array(k);
    for (let i = 0; i < k; i++) {
      step[i] = -u[i]! / varianceMm2[columns[i]!]!;
      for (let row = 0; row < model.rules; row++) step[i]! += slopes[i]![row]! * deviation[row]!;
    }
    solveLowerInPlace(precision, k, step);
    solveLowerTransposedInPlace(precision, k, step);
    let next = u;
    let nextDeviation = deviation;
    let nextCost = Number.POSITIVE_INFINITY;
    for (let damping = 1; damping > leastDamping && !(nextCost <= cost); damping /= 2) {
      next = capped(
        u.map((value, i) => value + damping * step[i]!),
        explanation,
      );
      nextDeviation = whitenedAt(next);
      nextCost = costOf(next, nextDeviation);
    }
    const hasSettled = cost - nextCost < settledCost;
    if (nextCost <= cost) [u, deviation, cost] = [next, nextDeviation, nextCost];
    if (!hasSettled) continue;
    let logPriorVolume = 0;
    for (const column of columns) logPriorVolume += Math.log(varianceMm2[column]!);
    const logOdds =
      logPriorOf(explanation) + (model.surprise - cost) / 2 - (logDeterminant(precision, k) + logPriorVolume) / 2;
    return { ...explanation, logOdds, displacementMm: u, covariance: inverseOf(precision, k), converged: true };
  }
  return { ...unsettled, converged: false };
}

/** How the whitened deviation falls with each displacement, per mm, about where the markers are put back to. */
function slopesAt(
  u: Float64Array,
  deviation: Float64Array,
  whitenedAt: (u: Float64Array) => Float64Array,
): Float64Array[] {
  return Array.from(u, (value, i) => {
    const probed = u.slice();
    probed[i] = value + probeMm;
    return whitenedAt(probed).map((changed, row) => (deviation[row]! - changed) / probeMm);
  });
}

function precisionOf(
  slopes: readonly Float64Array[],
  columns: readonly number[],
  varianceMm2: Float64Array,
): Float64Array {
  const k = slopes.length;
  const precision = new Float64Array(k * k);
  slopes.forEach((a, i) => {
    slopes.forEach((b, j) => {
      let sum = 0;
      for (let row = 0; row < a.length; row++) sum += a[row]! * b[row]!;
      precision[i * k + j] = sum;
    });
    precision[i * k + i]! += 1 / varianceMm2[columns[i]!]!;
  });
  return precision;
}

/** From the lower factor of a matrix. */
function inverseOf(lower: Float64Array, k: number): Float64Array {
  const inverse = new Float64Array(k * k);
  for (let i = 0; i < k; i++) {
    const unit = new Float64Array(k);
    unit[i] = 1;
    solveLowerInPlace(lower, k, unit);
    solveLowerTransposedInPlace(lower, k, unit);
    inverse.set(unit, i * k);
  }
  return inverse;
}

/** Shortens every marker's displacement to what is believable. */
function capped(u: Float64Array, explanation: Explanation): Float64Array {
  const limited = u.slice();
  const owner = columnMarkersOf(explanation);
  for (const { marker, isReading } of explanation.ways) {
    // A reading may be off by any slip.
    if (isReading) continue;
    const own = owner.flatMap((one, i) => (one === marker ? [i] : []));
    const size = Math.hypot(...own.map((i) => u[i]!));
    if (size > furthestMm) for (const i of own) limited[i]! *= furthestMm / size;
  }
  return limited;
}
