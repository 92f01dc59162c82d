import type { MarkerSet } from '../marker-set/marker-set.ts';
import { exchange, isSeen } from './exchange.ts';
import { sameSideExchanges } from './same-side-exchanges.ts';

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
  for (const pair of sameSideExchanges(x, set, indexOf)) swaps.push({ kind: 'same-side', exchanges: [pair] });
  return swaps;
}

function bothLabelled(set: MarkerSet, indexOf: ReadonlyMap<string, number>): [number, number][] {
  return set.markers.flatMap((marker, index): [number, number][] =>
    marker.side === 'right' ? [[index, indexOf.get(marker.mirror!)!]] : [],
  );
}
