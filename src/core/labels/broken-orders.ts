import type { MarkerSet } from '../marker-set/marker-set.ts';
import { isSeen } from './exchange.ts';

/**
 * Indices of the set's orders (above, in front, outside) that do not hold.
 * @param x positions in axes forward, left, up (mm), index marker * 3; NaN where not visible
 */
export function brokenOrders(x: Float64Array, set: MarkerSet): Set<number> {
  const indexOf = new Map(set.markers.map((marker, index) => [marker.label, index]));
  const broken = new Set<number>();
  set.orders.forEach((order, index) => {
    const first = indexOf.get(order.first)!;
    const second = indexOf.get(order.second)!;
    if (!isSeen(x, first) || !isSeen(x, second)) return;
    const axis = order.axis === 'forward' ? 0 : order.axis === 'up' ? 2 : 1;
    const sign = order.axis === 'outward' && order.side === 'right' ? -1 : 1;
    if (sign * (x[first * 3 + axis]! - x[second * 3 + axis]!) <= order.byMm) broken.add(index);
  });
  return broken;
}
