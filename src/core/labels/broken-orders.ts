import type { MarkerSet } from '../marker-set/marker-set.ts';
import { isSeen } from './exchange.ts';

interface PlacedOrder {
  readonly first: number;
  readonly second: number;
  readonly axis: number;
  readonly sign: number;
  readonly byMm: number;
}

const placed = new WeakMap<MarkerSet, readonly PlacedOrder[]>();

/** The orders of a set by offsets: made once for a set, which is asked for every exchange that is thought of. */
function ordersOf(set: MarkerSet): readonly PlacedOrder[] {
  const made =
    placed.get(set) ??
    set.orders.map(({ first, second, axis, side, byMm }) => ({
      first: set.markers.findIndex(({ label }) => label === first),
      second: set.markers.findIndex(({ label }) => label === second),
      axis: axis === 'forward' ? 0 : axis === 'up' ? 2 : 1,
      sign: axis === 'outward' && side === 'right' ? -1 : 1,
      byMm,
    }));
  placed.set(set, made);
  return made;
}

/**
 * Indices of the set's orders (above, in front, outside) that do not hold.
 * @param x positions in axes forward, left, up (mm), index marker * 3; NaN where not visible
 */
export function brokenOrders(x: Float64Array, set: MarkerSet): Set<number> {
  const broken = new Set<number>();
  ordersOf(set).forEach((order, index) => {
    if (isBroken(x, order)) broken.add(index);
  });
  return broken;
}

/** Whether an order of two markers does not hold that held before: one that touches any of them and is not in `before`. */
export function breaksOrderOf(
  x: Float64Array,
  set: MarkerSet,
  a: number,
  b: number,
  before: ReadonlySet<number>,
): boolean {
  return ordersOf(set).some((order, index) => {
    const touches = order.first === a || order.first === b || order.second === a || order.second === b;
    return touches && isBroken(x, order) && !before.has(index);
  });
}

function isBroken(x: Float64Array, { first, second, axis, sign, byMm }: PlacedOrder): boolean {
  if (!isSeen(x, first) || !isSeen(x, second)) return false;
  return sign * (x[first * 3 + axis]! - x[second * 3 + axis]!) <= byMm;
}
