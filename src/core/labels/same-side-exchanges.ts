import type { MarkerSet } from '../marker-set/marker-set.ts';
import { brokenOrders } from './broken-orders.ts';
import { exchange, isSeen } from './exchange.ts';

/** An exchange that leaves more than this share of what is unlike the other side does not explain it. */
const mostUnlike = 0.4;
const neighboursAsked = 3;

/**
 * Labels of one side that stand on each other's marker: an exchange that mends a broken order (above, in front,
 * outside), breaks none, and makes the side far more like the other one. Those that are often exchanged are tried before
 * any others. A single marker that is off by more than the
 * gap to its neighbour mends an order as well, but leaves both unlike the other side.
 *
 * @param x positions in axes forward, left, up (mm), index marker * 3; NaN where not visible. Put right on return.
 * @returns pairs of indices into the set's markers
 */
export function sameSideExchanges(
  x: Float64Array,
  set: MarkerSet,
  indexOf: ReadonlyMap<string, number>,
): [number, number][] {
  const exchanges: [number, number][] = [];
  for (;;) {
    const broken = brokenOrders(x, set);
    if (broken.size === 0) return exchanges;
    const pair =
      bestExchange(x, set, indexOf, broken, set.oftenSwapped) ??
      bestExchange(x, set, indexOf, broken, anyOfOneSide(set));
    if (pair === null) return exchanges;
    exchange(x, ...pair);
    exchanges.push(pair);
  }
}

function bestExchange(
  x: Float64Array,
  set: MarkerSet,
  indexOf: ReadonlyMap<string, number>,
  before: ReadonlySet<number>,
  candidates: MarkerSet['oftenSwapped'],
): [number, number] | null {
  let best: { pair: [number, number]; mended: number; left: number } | null = null;
  for (const labels of candidates) {
    const pair: [number, number] = [indexOf.get(labels[0])!, indexOf.get(labels[1])!];
    if (!isSeen(x, pair[0]) || !isSeen(x, pair[1])) continue;
    exchange(x, ...pair);
    const after = brokenOrders(x, set);
    exchange(x, ...pair);
    const mended = before.size - after.size;
    const breaksNone = [...after].every((order) => before.has(order) && !touches(set.orders[order]!, labels));
    if (mended <= 0 || !breaksNone) continue;
    const left = unlikenessLeft(x, set, indexOf, pair, before);
    if (left > mostUnlike) continue;
    if (best === null || mended > best.mended || (mended === best.mended && left < best.left)) {
      best = { pair, mended, left };
    }
  }
  return best?.pair ?? null;
}

/** Every two markers of one side: whoever labels trajectories can exchange any of them. */
function anyOfOneSide({ markers }: MarkerSet): [string, string][] {
  return markers.flatMap((first, index) =>
    markers
      .slice(index + 1)
      .filter(({ side }) => side === first.side && side !== 'midline')
      .map((second): [string, string] => [first.label, second.label]),
  );
}

/**
 * Share of what is unlike the other side that an exchange leaves. Where the other side breaks orders of the same
 * labels, the same exchange is taken to have happened there, and it is put right for the comparison.
 */
function unlikenessLeft(
  x: Float64Array,
  set: MarkerSet,
  indexOf: ReadonlyMap<string, number>,
  pair: readonly [number, number],
  broken: ReadonlySet<number>,
): number {
  const labels = pair.map((marker) => set.markers[marker]!.mirror!) as [string, string];
  const [a, b] = labels.map((label) => indexOf.get(label)!) as [number, number];
  const both = isSeen(x, a) && isSeen(x, b) && [...broken].some((order) => touches(set.orders[order]!, labels));
  if (both) exchange(x, a, b);
  const before = unlikeOtherSide(x, set, indexOf, pair);
  exchange(x, ...pair);
  const after = unlikeOtherSide(x, set, indexOf, pair);
  exchange(x, ...pair);
  if (both) exchange(x, a, b);
  return after / before;
}

/**
 * How unlike the other side two markers lie: squared differences, right and left, of their distances to their nearest
 * neighbours, which neither stance nor a bent knee changes much. NaN where the other side does not tell.
 */
function unlikeOtherSide(
  x: Float64Array,
  set: MarkerSet,
  indexOf: ReadonlyMap<string, number>,
  pair: readonly [number, number],
): number {
  const mirrorOf = (marker: number): number => indexOf.get(set.markers[marker]!.mirror ?? '') ?? -1;
  const [a, b] = pair.map(mirrorOf) as [number, number];
  const neighbours = set.markers
    .map((_, marker) => ({ marker, apart: gap(x, mirrorOf(marker), a) + gap(x, mirrorOf(marker), b) }))
    .filter(({ marker, apart }) => !pair.includes(marker) && isSeen(x, marker) && apart > 0)
    .sort((first, second) => first.apart - second.apart)
    .slice(0, neighboursAsked);
  if (neighbours.length === 0) return Number.NaN;
  let sum = 0;
  for (const { marker } of neighbours) {
    sum += (gap(x, pair[0], marker) - gap(x, a, mirrorOf(marker))) ** 2;
    sum += (gap(x, pair[1], marker) - gap(x, b, mirrorOf(marker))) ** 2;
  }
  return sum;
}

function gap(x: Float64Array, a: number, b: number): number {
  return Math.hypot(x[a * 3]! - x[b * 3]!, x[a * 3 + 1]! - x[b * 3 + 1]!, x[a * 3 + 2]! - x[b * 3 + 2]!);
}

function touches(order: MarkerSet['orders'][number], labels: readonly [string, string]): boolean {
  return labels.includes(order.first) || labels.includes(order.second);
}
