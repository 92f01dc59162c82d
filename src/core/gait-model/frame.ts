import { cross, direction, squareTo, subtract, type Vec3 } from '../geometry/vector.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';

/** Right-handed unit axes of a segment, in the axes of the positions they were made from. */
export interface Frame {
  readonly forward: Vec3;
  readonly left: Vec3;
  readonly up: Vec3;
}

/**
 * Frame of thigh or shank: up from the lower joint centre to the upper one, left or right toward the lateral marker of
 * the lower joint, forward square to both. Null where the three lie in one line.
 */
export function segmentFrame(upper: Vec3, lower: Vec3, lateral: Vec3, side: Side): Frame | null {
  const up = direction(subtract(upper, lower));
  if (up === null) return null;
  const across = side === 'left' ? subtract(lateral, lower) : subtract(lower, lateral);
  const left = direction(squareTo(across, up));
  return left === null ? null : { forward: cross(left, up), left, up };
}
