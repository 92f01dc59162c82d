/** Probability that a weighted sum of normal displacements is above zero. */
export function normalAbove(weights: readonly number[], mean: Float64Array, covariance: Float64Array): number {
  const k = weights.length;
  let middle = 0;
  let variance = 0;
  for (let i = 0; i < k; i++) {
    middle += weights[i]! * mean[i]!;
    for (let j = 0; j < k; j++) variance += weights[i]! * weights[j]! * covariance[i * k + j]!;
  }
  return variance > 0 ? normalDistribution(middle / Math.sqrt(variance)) : 0.5;
}

/** Abramowitz and Stegun 26.2.17, absolute error below 7.5e-8. */
function normalDistribution(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    0.3989422804014327 *
    Math.exp((-z * z) / 2) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z > 0 ? 1 - tail : tail;
}
