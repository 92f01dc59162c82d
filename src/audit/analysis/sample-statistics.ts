import jstat from 'jstat';

export type Interval = readonly [low: number, high: number];

/** Mean by two passes, which keeps the digits of values far from zero. NaN for none. */
export function mean(values: readonly number[]): number {
  const count = values.length;
  const rough = values.reduce((sum, value) => sum + value, 0) / count;
  return rough + values.reduce((sum, value) => sum + (value - rough), 0) / count;
}

/** Standard deviation with n - 1, corrected for the rounding of the mean (Chan 1983). NaN for fewer than two. */
export function sampleSd(values: readonly number[]): number {
  const count = values.length;
  if (count < 2) return Number.NaN;
  const centre = mean(values);
  let squares = 0;
  let rest = 0;
  for (const value of values) {
    const off = value - centre;
    squares += off * off;
    rest += off;
  }
  return Math.sqrt((squares - (rest * rest) / count) / (count - 1));
}

/** Correlation of each value with the next about the overall mean. */
export function lagOneAutocorrelation(values: readonly number[]): number {
  const centre = mean(values);
  const square = values.reduce((sum, value) => sum + (value - centre) ** 2, 0);
  return values.slice(1).reduce((sum, value, index) => sum + (value - centre) * (values[index]! - centre), 0) / square;
}

/** Interval of a mean by Student's t; null for fewer than three values. @param outside share of intervals that miss */
export function meanInterval(values: readonly number[], outside = 0.05): Interval | null {
  const count = values.length;
  if (count < 3) return null;
  const half = jstat.studentt.inv(1 - outside / 2, count - 1) * (sampleSd(values) / Math.sqrt(count));
  const centre = mean(values);
  return [centre - half, centre + half];
}

/** Interval of a standard deviation of values that spread like the bell curve, by chi-square; null for fewer than three. */
export function sdInterval(values: readonly number[], outside = 0.05): Interval | null {
  const count = values.length;
  if (count < 3) return null;
  const squares = (count - 1) * sampleSd(values) ** 2;
  const bound = (share: number): number => Math.sqrt(squares / jstat.chisquare.inv(share, count - 1));
  return [bound(1 - outside / 2), bound(outside / 2)];
}

/** Interval of the difference of two means of unlike spread (Welch 1947): second minus first. */
export function differenceInterval(
  first: readonly number[],
  second: readonly number[],
  outside = 0.05,
): Interval | null {
  if (first.length < 3 || second.length < 3) return null;
  const share = (values: readonly number[]) => sampleSd(values) ** 2 / values.length;
  const [a, b] = [share(first), share(second)];
  const difference = mean(second) - mean(first);
  if (a + b === 0) return [difference, difference];
  const freedom = (a + b) ** 2 / (a ** 2 / (first.length - 1) + b ** 2 / (second.length - 1));
  const half = jstat.studentt.inv(1 - outside / 2, freedom) * Math.sqrt(a + b);
  return [difference - half, difference + half];
}
