/** A count out of a number of people. */
export interface Share {
  readonly k: number;
  readonly n: number;
}

export function shareOf<T>(items: readonly T[], holds: (item: T) => boolean): Share {
  return { k: items.filter(holds).length, n: items.length };
}

export function percent({ k, n }: Share): number {
  return (100 * k) / n;
}

/** 95 % interval for a binomial share, per cent (Wilson 1927). */
export function interval({ k, n }: Share): [number, number] {
  const z = 1.959964;
  const p = k / n;
  const middle = (p + (z * z) / (2 * n)) / (1 + (z * z) / n);
  const half = (z * Math.sqrt((p * (1 - p)) / n + (z * z) / (4 * n * n))) / (1 + (z * z) / n);
  return [100 * Math.max(0, middle - half), 100 * Math.min(1, middle + half)];
}

export function median(values: readonly number[]): number | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
