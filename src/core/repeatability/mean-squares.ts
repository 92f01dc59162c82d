/** Mean squares of a table with one figure for each target and rater, and their degrees of freedom. */
export interface MeanSquares {
  readonly targets: number;
  readonly raters: number;
  /** Between targets; n - 1. */
  readonly between: number;
  /** Within targets, whoever rated; n (k - 1). */
  readonly within: number;
  /** Between raters; k - 1. */
  readonly judges: number;
  /** What is left; (n - 1) (k - 1). */
  readonly error: number;
}

/**
 * Two-way analysis of variance, one figure in each cell (Shrout and Fleiss 1979, Psychol Bull 86:420-428).
 * @param table a row for each target, a column for each rater; at least two of each, no gaps
 */
export function meanSquares(table: readonly (readonly number[])[]): MeanSquares {
  const n = table.length;
  const k = table[0]!.length;
  const grand = mean(table.flat());
  const rows = table.map(mean);
  const columns = table[0]!.map((_, rater) => mean(table.map((row) => row[rater]!)));
  const between = (k * sumOfSquares(rows, grand)) / (n - 1);
  const judges = (n * sumOfSquares(columns, grand)) / (k - 1);
  const withinSum = table.reduce((sum, row, target) => sum + sumOfSquares(row, rows[target]!), 0);
  const error = (withinSum - judges * (k - 1)) / ((n - 1) * (k - 1));
  return { targets: n, raters: k, between, within: withinSum / (n * (k - 1)), judges, error };
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** About a given middle; two passes, so that large figures with a small spread keep their digits. */
export function sumOfSquares(values: readonly number[], about: number): number {
  return values.reduce((sum, value) => sum + (value - about) ** 2, 0);
}

/** Sample standard deviation; NaN for fewer than two. */
export function standardDeviation(values: readonly number[]): number {
  return Math.sqrt(sumOfSquares(values, mean(values)) / (values.length - 1));
}
