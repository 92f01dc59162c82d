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

export const degreesPerRadian = 180 / Math.PI;
