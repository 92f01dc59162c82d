/**
 * The k-th smallest of the first `count` values, which are reordered. Selection after Hoare; the middle element is
 * the pivot, so sorted and constant data stay linear.
 */
export function select(values: Float64Array, count: number, k: number): number {
  let low = 0;
  let high = count - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1]!;
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i <= j) {
        const held = values[i]!;
        values[i++] = values[j]!;
        values[j--] = held;
      }
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else break;
  }
  return values[k]!;
}

/** Median of the first `count` values (which are reordered); NaN for none. */
export function median(values: Float64Array, count: number): number {
  if (count === 0) return Number.NaN;
  const half = count >> 1;
  const upper = select(values, count, half);
  if (count % 2 === 1) return upper;
  let lower = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < half; i++) lower = Math.max(lower, values[i]!);
  return (lower + upper) / 2;
}

/**
 * Mean of the values that lie within six scaled median absolute deviations of the median (and never nearer than
 * `floor`), and their standard deviation about it: the ordinary mean where nothing jumps.
 * @param scratch as long as `values`
 */
export function robustMean(
  values: Float64Array,
  count: number,
  scratch: Float64Array,
  floor: number,
): { mean: number; sd: number; kept: number } {
  const origin = values[0]!;
  let sum = 0;
  let squares = 0;
  let low = origin;
  let high = origin;
  for (let i = 0; i < count; i++) {
    const value = values[i]!;
    const offset = value - origin;
    sum += offset;
    squares += offset * offset;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (high - low > floor && !allWithinReach(values, count, low, high, scratch)) {
    return meanWithoutJumps(values, count, scratch, floor);
  }
  const sd = count > 1 ? Math.sqrt(Math.max(0, squares - (sum * sum) / count) / (count - 1)) : 0;
  return { mean: origin + sum / count, sd, kept: count };
}

/** 1.4826 makes the median absolute deviation estimate the standard deviation of normal data. */
const reachOfDeviation = 6 * 1.4826;
const bins = 64;

/**
 * Whether a histogram is enough to tell that every value is kept: the bin of the median bounds the median, and where
 * under half the values lie nearer to it than the furthest one's distance over the reach, the median absolute
 * deviation is larger than that. Never wrong where it says yes; ordering the values takes five times as long.
 */
function allWithinReach(
  values: Float64Array,
  count: number,
  low: number,
  high: number,
  histogram: Float64Array,
): boolean {
  if (histogram.length < bins) return false;
  histogram.fill(0, 0, bins);
  // A little less than the bins hold, so that the highest value falls into the last one.
  const perUnit = (bins * (1 - 1e-9)) / (high - low);
  for (let i = 0; i < count; i++) histogram[Math.floor((values[i]! - low) * perUnit)]! += 1;
  const underHalf = Math.ceil(count / 2) - 1;
  const first = binOf(histogram, underHalf + 1);
  const last = binOf(histogram, Math.floor(count / 2) + 1);
  // In widths of a bin from here on.
  const furthest = Math.max(bins - first, last + 1);
  const near = furthest / reachOfDeviation + 1e-6;
  let within = 0;
  const to = Math.min(bins - 1, Math.floor(last + 1 + near));
  for (let bin = Math.max(0, Math.floor(first - near)); bin <= to; bin++) within += histogram[bin]!;
  return within <= underHalf;
}

/** Bin that holds the nth smallest value, n from 1. */
function binOf(histogram: Float64Array, n: number): number {
  let bin = 0;
  for (let below = histogram[0]!; below < n; below += histogram[bin]!) bin++;
  return bin;
}

function meanWithoutJumps(
  values: Float64Array,
  count: number,
  scratch: Float64Array,
  floor: number,
): { mean: number; sd: number; kept: number } {
  for (let i = 0; i < count; i++) scratch[i] = values[i]!;
  const middle = median(scratch, count);
  for (let i = 0; i < count; i++) scratch[i] = Math.abs(values[i]! - middle);
  const reach = Math.max(reachOfDeviation * median(scratch, count), floor);
  let sum = 0;
  let kept = 0;
  for (let i = 0; i < count; i++) {
    const offset = values[i]! - middle;
    if (Math.abs(offset) > reach) continue;
    sum += offset;
    kept += 1;
  }
  const mean = sum / kept;
  let squares = 0;
  for (let i = 0; i < count; i++) {
    const offset = values[i]! - middle;
    if (Math.abs(offset) <= reach) squares += (offset - mean) ** 2;
  }
  return { mean: middle + mean, sd: kept > 1 ? Math.sqrt(squares / (kept - 1)) : 0, kept };
}
