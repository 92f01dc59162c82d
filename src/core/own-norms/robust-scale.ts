import { select } from '../geometry/statistics.ts';

/**
 * Makes the scale that of a standard deviation for normal data: 1 / (sqrt 2 times the normal quantile of 5/8). Rousseeuw
 * and Croux 1993 print 2.2219.
 */
const consistency = 2.21914;
/** The same for few values (Croux and Rousseeuw 1992, Time-efficient algorithms; from memory). */
const fewValues = [Number.NaN, Number.NaN, 0.399, 0.994, 0.512, 0.844, 0.611, 0.857, 0.669, 0.872];

/**
 * Qn, the k-th smallest distance between any two values, as a standard deviation: half of the values may be anything, and
 * on normal data it is nearly as good as the standard deviation itself (Rousseeuw and Croux 1993, J Am Stat Assoc
 * 88:1273-1283). In n log n by their selection of a rank among sorted rows.
 * @returns NaN for fewer than two values
 */
export function robustScale(values: Float64Array): number {
  const n = values.length;
  if (n < 2) return Number.NaN;
  const sorted = values.slice().sort();
  const h = Math.floor(n / 2) + 1;
  const quantile = rankOfDifferences(sorted, (h * (h - 1)) / 2);
  const small = fewValues[n] ?? (n % 2 === 1 ? n / (n + 1.4) : n / (n + 3.8));
  return small * consistency * quantile;
}

/**
 * The k-th smallest of all y[i] - y[j], j < i, of sorted y, k from 1: the k-th of a matrix with sorted rows, narrowed by
 * weighted medians of the rows' middles.
 */
function rankOfDifferences(y: Float64Array, k: number): number {
  const n = y.length;
  // Row i holds y[i] - y[i - 1], ..., y[i] - y[0], ascending; entries left[i]..right[i] are still open.
  const left = new Int32Array(n);
  const right = Int32Array.from({ length: n }, (_, i) => i - 1);
  const entry = (i: number, at: number): number => y[i]! - y[i - 1 - at]!;
  let below = 0;
  let open = (n * (n - 1)) / 2;
  while (open > n) {
    const trial = weightedMedian(left, right, entry);
    let less = 0;
    let lessOrSame = 0;
    const [isLess, isLessOrSame] = [new Int32Array(n), new Int32Array(n)];
    for (let i = 1; i < n; i++) {
      isLess[i] = countBelow(y, i, trial, false);
      isLessOrSame[i] = countBelow(y, i, trial, true);
      less += isLess[i]!;
      lessOrSame += isLessOrSame[i]!;
    }
    if (k <= less) for (let i = 1; i < n; i++) right[i] = Math.min(right[i]!, isLess[i]! - 1);
    else if (k > lessOrSame) for (let i = 1; i < n; i++) left[i] = Math.max(left[i]!, isLessOrSame[i]!);
    else return trial;
    below = 0;
    open = 0;
    for (let i = 1; i < n; i++) {
      below += left[i]!;
      open += Math.max(0, right[i]! - left[i]! + 1);
    }
  }
  const rest = new Float64Array(open);
  let count = 0;
  for (let i = 1; i < n; i++) for (let at = left[i]!; at <= right[i]!; at++) rest[count++] = entry(i, at);
  return select(rest, count, k - 1 - below);
}

/** How many of row i lie under the trial, or at it as well: by halving. */
function countBelow(y: Float64Array, i: number, trial: number, withSame: boolean): number {
  let low = 0;
  let high = i;
  while (low < high) {
    const middle = (low + high) >> 1;
    const value = y[i]! - y[i - 1 - middle]!;
    if (value < trial || (withSame && value === trial)) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Middle entry of each open row, weighed by how many entries are open there. */
function weightedMedian(left: Int32Array, right: Int32Array, entry: (i: number, at: number) => number): number {
  const middles: { value: number; weight: number }[] = [];
  let whole = 0;
  for (let i = 1; i < left.length; i++) {
    const weight = right[i]! - left[i]! + 1;
    if (weight <= 0) continue;
    middles.push({ value: entry(i, (left[i]! + right[i]!) >> 1), weight });
    whole += weight;
  }
  middles.sort((a, b) => a.value - b.value);
  let sum = 0;
  for (const { value, weight } of middles) {
    sum += weight;
    if (2 * sum >= whole) return value;
  }
  return middles.at(-1)!.value;
}
