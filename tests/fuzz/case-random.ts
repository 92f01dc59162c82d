/** Random choices of one case. The same seed and case number give the same case on every machine. */
export interface CaseRandom {
  /** A whole number from 0 to `below` - 1. */
  whole(below: number): number;
  chance(probability: number): boolean;
  pick<Item>(items: readonly Item[]): Item;
}

/** Mulberry32, started from a mix of both numbers so that neighbouring cases have nothing in common. */
export function caseRandom(seed: number, caseNumber: number): CaseRandom {
  let state = (Math.imul(seed, 0x9e3779b1) ^ Math.imul(caseNumber + 1, 0x85ebca6b)) >>> 0;
  const unit = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  unit();
  const whole = (below: number) => Math.floor(unit() * below);
  return { whole, chance: (probability) => unit() < probability, pick: (items) => items[whole(items.length)]! };
}
