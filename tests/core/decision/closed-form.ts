import type { WhitenedModel } from '../../../src/core/decision/evidence.ts';
import { choleskyInPlace, logDeterminant, solveLowerInPlace } from '../../../src/core/geometry/cholesky.ts';

const mostColumns = 8;
const matrix = new Float64Array(mostColumns * mostColumns);
const vector = new Float64Array(mostColumns);

/** Log evidence ratio of displacing the given columns, as the formula in evidence.ts says, one set at a time. */
export function logEvidence(model: WhitenedModel, chosen: readonly number[], varianceMm2: Float64Array): number {
  const k = chosen.length;
  let logPriorVolume = 0;
  for (let i = 0; i < k; i++) {
    const a = chosen[i]!;
    for (let j = 0; j <= i; j++) matrix[i * k + j] = model.information[a * model.columns + chosen[j]!]!;
    matrix[i * k + i]! += 1 / varianceMm2[a]!;
    vector[i] = model.pull[a]!;
    logPriorVolume += Math.log(varianceMm2[a]!);
  }
  if (!choleskyInPlace(matrix, k)) return Number.NEGATIVE_INFINITY;
  solveLowerInPlace(matrix, k, vector);
  let gain = 0;
  for (let i = 0; i < k; i++) gain += vector[i]! ** 2;
  return gain / 2 - (logDeterminant(matrix, k) + logPriorVolume) / 2;
}
