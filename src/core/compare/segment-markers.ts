import { distance, type Vec3 } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';

/** Markers that move together as one bone, nearly. */
export interface SegmentMarkers {
  /** As the set names it with its side: `thigh.right`. */
  readonly segment: string;
  /** Markers of the segment itself: their placing is judged. */
  readonly own: readonly string[];
  /** Markers of its neighbours that help to hold it. */
  readonly lent: readonly string[];
}

/** So many points hold a segment in space, even where one of them moved; three do at the least. */
const enough = 5;
const fewest = 3;
/** A marker further off moves with another bone; mm. */
const nearMm = 250;

/**
 * The markers of each segment, with those at the ends of its long axis and the nearest palpated ones, on a segment of the
 * midline from both sides alike, until there are enough.
 * @param positions of the markers that are on, forward, left, up; mm
 */
export function segmentMarkers(set: MarkerSet, positions: ReadonlyMap<string, Vec3>): SegmentMarkers[] {
  return set.segments.flatMap(({ name, longAxis, side }): SegmentMarkers[] => {
    const on = set.markers.filter(({ label }) => positions.has(label));
    const own = on
      .filter((marker) => marker.segment === name || `${marker.segment}.${marker.side}` === name)
      .map(({ label }) => label);
    const ends = longAxis === null ? [] : [longAxis.from, longAxis.to];
    const lent = ends.filter((end) => positions.has(end) && !own.includes(end));
    const middle = own.map((label) => positions.get(label)!);
    const others = on
      .filter((marker) => marker.placedBy === 'palpation' && ![...own, ...lent].includes(marker.label))
      .filter((marker) => side === 'midline' || marker.side === side)
      .map((marker) => ({ marker, mm: nearest(positions.get(marker.label)!, middle) }))
      .filter(({ mm }) => mm <= nearMm)
      .sort((a, b) => a.mm - b.mm);
    for (const { marker } of others) {
      if (own.length + lent.length >= enough) break;
      const pair = side === 'midline' && marker.mirror !== null ? [marker.label, marker.mirror] : [marker.label];
      lent.push(...pair.filter((label) => positions.has(label) && !lent.includes(label)));
    }
    return own.length > 0 && own.length + lent.length >= fewest ? [{ segment: name, own, lent }] : [];
  });
}

function nearest(point: Vec3, points: readonly Vec3[]): number {
  return Math.min(...points.map((other) => distance(point, other)));
}
