import { cross, direction, subtract, type Vec3 } from '../geometry/vector.ts';

/** Right-handed axes of the pelvis, unit vectors in the axes of the points given. */
export interface PelvisFrame {
  readonly forward: Vec3;
  readonly left: Vec3;
  readonly up: Vec3;
}

/**
 * The pelvis's own axes: left along the line of the ASIS, up square to the plane of the ASIS and the point behind
 * (middle of the PSIS, or a sacral marker), forward square to both. Null where the points lie in one line.
 * Construction as in Enderle and Bronzino, Introduction to Biomedical Engineering, chapter 4, example 4.10.
 */
export function pelvisFrame(rightAsis: Vec3, leftAsis: Vec3, back: Vec3): PelvisFrame | null {
  const left = direction(subtract(leftAsis, rightAsis));
  if (left === null) return null;
  const up = direction(cross(left, subtract(back, rightAsis)));
  if (up === null) return null;
  return { forward: cross(left, up), left, up };
}
