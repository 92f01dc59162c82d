/** What is measured side by side: each runs once in every round, so that a busy machine slows all of them alike. */
export type Contenders = Readonly<Record<string, () => unknown>>;

/**
 * Median milliseconds of each contender over `rounds` rounds, after `warmUp` rounds that are not counted. Medians,
 * and ratios of them within one run: a single figure says more about the machine's other work.
 */
export function interleave<Name extends string>(
  contenders: Readonly<Record<Name, () => unknown>>,
  rounds: number,
  warmUp: number,
): Record<Name, number> {
  const names = Object.keys(contenders) as Name[];
  const times = new Map<Name, number[]>(names.map((name) => [name, []]));
  for (let round = 0; round < warmUp + rounds; round++) {
    for (const name of names) {
      const start = performance.now();
      contenders[name]();
      const took = performance.now() - start;
      if (round >= warmUp) times.get(name)!.push(took);
    }
  }
  return Object.fromEntries(names.map((name) => [name, median(times.get(name)!)])) as Record<Name, number>;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
