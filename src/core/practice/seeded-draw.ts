/** Numbers drawn by a seed: the same seed draws the same, on every machine. */
export interface SeededDraw {
  /** From 0 up to 1. */
  unit(): number;
  between(low: number, high: number): number;
  /** One of the items, each as likely as its weight says. */
  pick<Item>(items: readonly Item[], weight?: (item: Item) => number): Item;
  /** The items in an order that is drawn. */
  shuffled<Item>(items: readonly Item[]): Item[];
  /** Spread about 0 as a bell of SD 1 that is cut at 2. */
  bell(): number;
}

/** Seeds are whole numbers below this. */
export const seeds = 2 ** 31;

/** A Weyl sequence with a 32-bit mix ("mulberry32", from memory): ample for drawing exercises, and for nothing else. */
export function seededDraw(seed: number): SeededDraw {
  let state = seed >>> 0;
  const unit = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  return {
    unit,
    between: (low, high) => low + (high - low) * unit(),
    pick(items, weight = () => 1) {
      const weights = items.map(weight);
      let rest = unit() * weights.reduce((sum, one) => sum + one, 0);
      const at = weights.findIndex((one) => {
        rest -= one;
        return rest < 0;
      });
      return items[at < 0 ? items.length - 1 : at]!;
    },
    shuffled(items) {
      const order = [...items];
      for (let last = order.length - 1; last > 0; last--) {
        const other = Math.floor(unit() * (last + 1));
        [order[last], order[other]] = [order[other]!, order[last]!];
      }
      return order;
    },
    bell() {
      for (;;) {
        const drawn = Math.sqrt(-2 * Math.log(1 - unit())) * Math.cos(2 * Math.PI * unit());
        if (Math.abs(drawn) <= 2) return drawn;
      }
    },
  };
}
