import type { Vec3 } from '../geometry/vector.ts';
import type { Side } from './rule-kind.ts';

/** The three numbers stored at an offset of the positions array. */
export function at(positions: Float64Array, offset: number): Vec3 {
  return [positions[offset]!, positions[offset + 1]!, positions[offset + 2]!];
}

/** +1 where left is outward, -1 where right is. */
export function outwardSign(side: Side | 'both' | 'midline'): number {
  return side === 'right' ? -1 : 1;
}

/** Distance between the points stored at two offsets. Not `Math.hypot`, which allocates. */
export function distance(positions: Float64Array, a: number, b: number): number {
  const forward = positions[a]! - positions[b]!;
  const left = positions[a + 1]! - positions[b + 1]!;
  const up = positions[a + 2]! - positions[b + 2]!;
  return Math.sqrt(forward * forward + left * left + up * up);
}

export const degreesPerRadian = 180 / Math.PI;

/** Angle between a vector and its `along` part, in degrees, toward `across`; NaN for a vector without a direction. */
export function angleDeg(across: number, along: number): number {
  return across === 0 && along === 0 ? Number.NaN : Math.atan2(across, along) * degreesPerRadian;
}
