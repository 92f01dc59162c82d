/** Less than this share of its own variance left beside the rows before it: a row that says nothing of its own. */
const leastShare = 4e-6;

/** Whether what is left of a row's variance beside the rows before it says nothing of its own. */
export function addsNothing(left: number, variance: number): boolean {
  return !(left > leastShare * variance);
}

/**
 * Rows of a covariance matrix (row-major n x n, full) that add nothing to those before them: their variance is zero, or
 * is explained by the others to a few millionths. A rank check by Cholesky steps that pass over such rows.
 */
export function rowsThatAddNothing(covariance: Float64Array, n: number): number[] {
  const nothing: number[] = [];
  const kept: number[] = [];
  const lower = new Float64Array(n * n);
  for (let row = 0; row < n; row++) {
    let left = covariance[row * n + row]!;
    for (let j = 0; j < kept.length; j++) {
      const column = kept[j]!;
      let value = covariance[row * n + column]!;
      for (let k = 0; k < j; k++) value -= lower[row * n + k]! * lower[column * n + k]!;
      value /= lower[column * n + j]!;
      lower[row * n + j] = value;
      left -= value * value;
    }
    if (addsNothing(left, covariance[row * n + row]!)) nothing.push(row);
    else {
      lower[row * n + kept.length] = Math.sqrt(left);
      kept.push(row);
    }
  }
  return nothing;
}
