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
const mostIterations = 6;
const settledMm = 0.05;

/**
 * Damped Gauss-Newton from the linear answer: the deviation is evaluated with the markers put back by the displacement,
 * and the evidence gets its Laplace term there. The sensitivities are kept from the measured pose.
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
  const asLinear = { ...explanation, displacementMm: linear.mean, covariance: linear.covariance };
  const k = columns.length;
  if (k === 0) return { ...asLinear, converged: true };
  const precision = precisionOf(model, columns, varianceMm2);
  if (!choleskyInPlace(precision, k)) return { ...asLinear, converged: false };

  const deviation = new Float64Array(model.rules);
  const misfit = (u: Float64Array): number => {
    deviationAt(columns, u, deviation);
    solveLowerInPlace(model.lower, model.rules, deviation);
    let sum = 0;
    for (let i = 0; i < model.rules; i++) sum += deviation[i]! ** 2;
    for (let i = 0; i < k; i++) sum += u[i]! ** 2 / varianceMm2[columns[i]!]!;
    return sum;
  };
  let u = capped(linear.mean, explanation);
  let cost = misfit(u);
  let converged = false;
  for (let iteration = 0; iteration < mostIterations && Number.isFinite(cost); iteration++) {
    const step = new Float64Array(k);
    for (let i = 0; i < k; i++) {
      step[i] = -u[i]! / varianceMm2[columns[i]!]!;
      const column = model.whitenedColumns[columns[i]!]!;
      for (let row = 0; row < model.rules; row++) step[i]! += column[row]! * deviation[row]!;
    }
    solveLowerInPlace(precision, k, step);
    solveLowerTransposedInPlace(precision, k, step);
    let damping = 1;
    let next = u;
    let nextCost = Number.POSITIVE_INFINITY;
    for (; damping > 0.05; damping /= 2) {
      next = capped(
        u.map((value, i) => value + damping * step[i]!),
        explanation,
      );
      nextCost = misfit(next);
      if (nextCost <= cost + 1e-9) break;
    }
    if (!(nextCost <= cost + 1e-9)) {
      converged = Math.hypot(...step) < 1;
      break;
    }
    const moved = Math.hypot(...next.map((value, i) => value - u[i]!));
    u = next;
    cost = nextCost;
    if (moved < settledMm) {
      converged = true;
      break;
    }
  }
  if (!converged) return { ...asLinear, displacementMm: capped(linear.mean, explanation), converged };
  let logPriorVolume = 0;
  for (const column of columns) logPriorVolume += Math.log(varianceMm2[column]!);
  const logOdds =
    logPriorOf(explanation) + (model.surprise - cost) / 2 - (logDeterminant(precision, k) + logPriorVolume) / 2;
  return { ...explanation, logOdds, displacementMm: u, covariance: linear.covariance, converged };
}

function precisionOf(model: WhitenedModel, columns: readonly number[], varianceMm2: Float64Array): Float64Array {
  const k = columns.length;
  const precision = new Float64Array(k * k);
  columns.forEach((a, i) => {
    columns.forEach((b, j) => {
      precision[i * k + j] = model.information[a * model.columns + b]!;
    });
    precision[i * k + i]! += 1 / varianceMm2[a]!;
  });
  return precision;
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
