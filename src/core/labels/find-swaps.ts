import type { MarkerSet } from '../marker-set/marker-set.ts';

/** Labels that stand on each other's marker. */
export interface Swap {
  readonly kind: 'whole-body' | 'pair' | 'same-side';
  /** Pairs to exchange; indices into the set's markers. */
  readonly exchanges: readonly (readonly [number, number])[];
}

/** Left and right closer together than this, in mm, do not tell which is which. */
const tellingMm = 20;

/**
 * Finds exchanged labels from where the markers are on the body.
 *
 * Left and right: the subject's left is known from lines whose ends hold both sides, so a pair whose left label lies
 * to the right is exchanged; when all of them are, the whole body is, and the subject does not face the other way.
 * One side: an exchange that mends a broken order (above, in front, outside) and breaks none.
 *
 * @param body positions in axes forward, left, up (mm), index marker * 3; NaN where not visible
 */
export function findSwaps(body: Float64Array, set: MarkerSet): Swap[] {
  const indexOf = new Map(set.markers.map((marker, index) => [marker.label, index]));
  const pairs: [number, number][] = [];
  set.markers.forEach((marker, index) => {
    const mirror = marker.side === 'right' ? indexOf.get(marker.mirror!) : undefined;
    if (mirror !== undefined && isSeen(body, index) && isSeen(body, mirror)) pairs.push([index, mirror]);
  });
  const crossed = pairs.filter(([right, left]) => body[left * 3 + 1]! - body[right * 3 + 1]! < -tellingMm);
  const swaps: Swap[] = [];
  const x = body.slice();
  if (crossed.length > 0 && crossed.length >= 0.8 * pairs.length && pairs.length >= 3) {
    const all = bothLabelled(set, indexOf);
    swaps.push({ kind: 'whole-body', exchanges: all });
    for (const [right, left] of all) exchange(x, right, left);
  } else {
    for (const pair of crossed) {
      swaps.push({ kind: 'pair', exchanges: [pair] });
      exchange(x, ...pair);
    }
  }
  return [...swaps, ...sameSideSwaps(x, set, indexOf)];
}

function sameSideSwaps(x: Float64Array, set: MarkerSet, indexOf: ReadonlyMap<string, number>): Swap[] {
  const swaps: Swap[] = [];
  for (;;) {
    const before = brokenOrders(x, set, indexOf);
    if (before.size === 0) return swaps;
    let best: { pair: [number, number]; mended: number } | null = null;
    for (const labels of set.oftenSwapped) {
      const pair: [number, number] = [indexOf.get(labels[0])!, indexOf.get(labels[1])!];
      if (!isSeen(x, pair[0]) || !isSeen(x, pair[1])) continue;
      exchange(x, ...pair);
      const after = brokenOrders(x, set, indexOf);
      exchange(x, ...pair);
      const breaksNone = [...after].every((order) => before.has(order));
      const touched = [...after].some((order) => touches(set.orders[order]!, labels));
      const mended = before.size - after.size;
      if (breaksNone && !touched && mended > (best?.mended ?? 0)) best = { pair, mended };
    }
    if (best === null) return swaps;
    exchange(x, ...best.pair);
    swaps.push({ kind: 'same-side', exchanges: [best.pair] });
  }
}

function touches(order: MarkerSet['orders'][number], labels: readonly [string, string]): boolean {
  return labels.includes(order.first) || labels.includes(order.second);
}

/** Indices of the orders that do not hold. */
function brokenOrders(x: Float64Array, set: MarkerSet, indexOf: ReadonlyMap<string, number>): Set<number> {
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

function bothLabelled(set: MarkerSet, indexOf: ReadonlyMap<string, number>): [number, number][] {
  return set.markers.flatMap((marker, index): [number, number][] =>
    marker.side === 'right' ? [[index, indexOf.get(marker.mirror!)!]] : [],
  );
}

function isSeen(x: Float64Array, marker: number): boolean {
  return !Number.isNaN(x[marker * 3]!);
}

function exchange(x: Float64Array, a: number, b: number): void {
  for (let axis = 0; axis < 3; axis++) {
    const held = x[a * 3 + axis]!;
    x[a * 3 + axis] = x[b * 3 + axis]!;
    x[b * 3 + axis] = held;
  }
}
