import { choleskyInPlace, solveLowerInPlace } from '../geometry/cholesky.ts';
import type { Vec3 } from '../geometry/vector.ts';

/** A point of a segment as it lies on average, along the segment's own directions; mm. */
export interface HeldPoint {
  readonly at: Vec3;
  /** How well such a marker is placed, 1 SD along each direction; mm. */
  readonly scatterMm: Vec3;
}

/** How a segment is held in space by its points. */
export interface SegmentHold {
  /**
   * What is left of each point's deviations once the segment was brought back onto itself; same order as the points.
   * @param off where the points lie less where they lie on average, mm
   */
  left(off: readonly Vec3[]): Vec3[];
  /** The motion of the segment alone, at a place that is no point of it. */
  motionAt(off: readonly Vec3[], place: Vec3): Vec3;
  /**
   * Leverage of a coordinate: which share of a deviation there is taken for a motion of the segment. For a place that is
   * no point of it: the variance of the motion there, over that of such a marker.
   */
  leverage(place: Vec3, scatterMm: Vec3): Vec3;
}

const axes = [0, 1, 2] as const;
const unknowns = 6;

/**
 * Holds a segment by its points, each counted by how precisely it is placed: generalised least squares for small motions.
 * @returns null where the points do not hold it
 */
export function holdSegment(points: readonly HeldPoint[]): SegmentHold | null {
  const normal = new Float64Array(unknowns * unknowns);
  for (const { at, scatterMm } of points) {
    for (const axis of axes) {
      const row = designRow(at, axis);
      for (let i = 0; i < unknowns; i++)
        for (let j = 0; j <= i; j++) normal[i * unknowns + j]! += (row[i]! * row[j]!) / scatterMm[axis] ** 2;
    }
  }
  if (points.length < 3 || !choleskyInPlace(normal, unknowns)) return null;
  const whitened = (row: Float64Array): Float64Array => {
    solveLowerInPlace(normal, unknowns, row);
    return row;
  };
  const motion = (off: readonly Vec3[]): Float64Array => {
    const sum = new Float64Array(unknowns);
    points.forEach(({ at, scatterMm }, index) => {
      for (const axis of axes) {
        const row = designRow(at, axis);
        for (let i = 0; i < unknowns; i++) sum[i]! += (row[i]! * off[index]![axis]) / scatterMm[axis] ** 2;
      }
    });
    return whitened(sum);
  };
  const predicted = (known: Float64Array, place: Vec3): Vec3 =>
    axes.map((axis) => product(whitened(designRow(place, axis)), known)) as unknown as Vec3;
  return {
    left(off) {
      const known = motion(off);
      return points.map(({ at }, index) => {
        const by = predicted(known, at);
        return axes.map((axis) => off[index]![axis] - by[axis]) as unknown as Vec3;
      });
    },
    motionAt: (off, place) => predicted(motion(off), place),
    leverage: (place, scatterMm) =>
      axes.map((axis) => {
        const row = whitened(designRow(place, axis));
        return product(row, row) / scatterMm[axis] ** 2;
      }) as unknown as Vec3,
  };
}

/** How a coordinate follows a small motion of the segment: three shifts, three turns (per 100 mm, so that both weigh alike). */
function designRow([x, y, z]: Vec3, axis: 0 | 1 | 2): Float64Array {
  const row = new Float64Array(unknowns);
  row[axis] = 1;
  const turns = [
    [0, z, -y],
    [-z, 0, x],
    [y, -x, 0],
  ][axis]!;
  for (const turn of axes) row[3 + turn] = turns[turn]! / 100;
  return row;
}

function product(a: Float64Array, b: Float64Array): number {
  return a.reduce((sum, value, index) => sum + value * b[index]!, 0);
}
