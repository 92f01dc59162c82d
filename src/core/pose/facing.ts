import { cross, direction, dot, squareTo, type Vec3 } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import { middleOf } from './vertical.ts';

export interface Facing {
  readonly forward: Vec3;
  readonly left: Vec3;
  /** 0 to 1: how well feet, pelvis and shoulders agree. */
  readonly agreement: number;
}

/** A line at least this long votes with full weight; a short one hardly knows where it points. */
const fullWeightMm = 100;

/**
 * Which way the subject faces, from lines that run from back to front and whose ends hold both sides alike, so that
 * exchanged left and right labels do not turn the answer round. Lab axes; null where no such line can be seen.
 */
export function findFacing(means: Float64Array, set: MarkerSet, up: Vec3): Facing | null {
  const seen = new Set(
    set.markers.filter((_, index) => !Number.isNaN(means[index * 3]!)).map((marker) => marker.label),
  );
  const sum: Vec3 = [0, 0, 0];
  let weights = 0;
  for (const line of set.bodyAxes.forward) {
    if (![...line.from, ...line.to].every((label) => seen.has(label))) continue;
    const from = middleOf(means, set, line.from)!;
    const to = middleOf(means, set, line.to)!;
    const level = squareTo([to[0] - from[0], to[1] - from[1], to[2] - from[2]], up);
    const unit = direction(level);
    if (unit === null) continue;
    const weight = Math.min(1, Math.sqrt(dot(level, level)) / fullWeightMm);
    for (let axis = 0; axis < 3; axis++) sum[axis]! += unit[axis]! * weight;
    weights += weight;
  }
  const forward = direction(sum);
  if (forward === null) return null;
  return { forward, left: cross(up, forward), agreement: Math.sqrt(dot(sum, sum)) / weights };
}
