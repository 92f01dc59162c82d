/** A repeatable source of random numbers: the same seed gives the same numbers on every machine. */
export interface SeededRandom {
  /** Evenly spread between `low` and `high`. */
  between(low: number, high: number): number;
  /** Bell-shaped about 0 with the given SD, redrawn while further out than `limitSd` SDs. */
  bell(sd: number, limitSd?: number): number;
}

/**
 * Starts a source from a whole-number seed. Weyl sequence with a 32-bit integer mix (the "mulberry32" scheme), which is
 * ample for sample data and needs nothing but integer arithmetic.
 */
export function seededRandom(seed: number): SeededRandom {
  let state = seed >>> 0;
  const unit = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const standardBell = (): number => Math.sqrt(-2 * Math.log(1 - unit())) * Math.cos(2 * Math.PI * unit());
  return {
    between: (low, high) => low + (high - low) * unit(),
    bell: (sd, limitSd = 4) => {
      let drawn = standardBell();
      while (Math.abs(drawn) > limitSd) drawn = standardBell();
      return sd * drawn;
    },
  };
}
