import { add, scale, subtract, type Vec3 } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import { at } from '../rule-kinds/positions.ts';

/** Reads a point from marker positions (index marker * 3, mm, any axes); null where a marker of it is not seen. */
export type ReadPoint = (markers: Float64Array) => Vec3 | null;

/**
 * Reader of a marker or of a virtual point that markers alone give, in whatever axes the markers are. What a `first-of`
 * stands for is settled by the standing trial, so that a marker that hides in walking does not exchange it.
 * @returns null where the standing trial does not show it, or markers alone do not give it
 */
export function pointReader(name: string, set: MarkerSet, standing: Float64Array): ReadPoint | null {
  const index = set.markers.findIndex(({ label }) => label === name);
  if (index >= 0) {
    return Number.isNaN(standing[index * 3]!)
      ? null
      : (markers) => (Number.isNaN(markers[index * 3]!) ? null : at(markers, index * 3));
  }
  const point = set.virtualPoints.find((candidate) => candidate.name === name);
  switch (point?.construct) {
    case 'first-of': {
      const readers = point.of.map((part) => pointReader(part, set, standing));
      return readers.find((reader) => reader !== null) ?? null;
    }
    case 'midpoint': {
      const readers = point.of.map((part) => pointReader(part, set, standing));
      if (!readers.every((reader) => reader !== null)) return null;
      return (markers) => middle(readers.map((reader) => reader(markers)));
    }
    case 'along-line': {
      const from = pointReader(point.from, set, standing);
      const to = pointReader(point.to, set, standing);
      if (from === null || to === null) return null;
      return (markers) => between(from(markers), to(markers), point.fraction);
    }
    default:
      return null;
  }
}

function middle(points: readonly (Vec3 | null)[]): Vec3 | null {
  let sum: Vec3 = [0, 0, 0];
  for (const point of points) {
    if (point === null) return null;
    sum = add(sum, point);
  }
  return scale(sum, 1 / points.length);
}

function between(from: Vec3 | null, to: Vec3 | null, fraction: number): Vec3 | null {
  return from === null || to === null ? null : add(from, scale(subtract(to, from), fraction));
}
