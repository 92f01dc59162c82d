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
 */
export function robustMean(
  values: Float64Array,
  count: number,
  scratch: Float64Array,
  floor: number,
): { mean: number; sd: number; kept: number } {
  for (let i = 0; i < count; i++) scratch[i] = values[i]!;
  const middle = median(scratch, count);
  for (let i = 0; i < count; i++) scratch[i] = Math.abs(values[i]! - middle);
  // 1.4826 makes the median absolute deviation estimate the standard deviation of normal data.
  const reach = Math.max(6 * 1.4826 * median(scratch, count), floor);
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
