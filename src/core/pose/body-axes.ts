import type { Vec3 } from '../geometry/vector.ts';

/** The subject's own axes and origin, in lab axes. */
export interface BodyAxes {
  readonly forward: Vec3;
  readonly left: Vec3;
  readonly up: Vec3;
  /** Middle of the ASIS dropped to the floor. */
  readonly origin: Vec3;
}

/**
 * Left is the levelled line from the right to the left marker, or `left0` where one of them is missing; up is the
 * vertical; forward is left x up.
 * @param lab marker positions in lab axes, mm
 */
export function bodyAxesFrom(
  lab: Float64Array,
  rightAt: number | undefined,
  leftAt: number | undefined,
  up: Vec3,
  left0: Vec3,
  floorUp: number,
): BodyAxes {
  let left = left0;
  if (rightAt !== undefined && leftAt !== undefined) {
    const across = [
      lab[leftAt]! - lab[rightAt]!,
      lab[leftAt + 1]! - lab[rightAt + 1]!,
      lab[leftAt + 2]! - lab[rightAt + 2]!,
    ] as const;
    const rise = across[0] * up[0] + across[1] * up[1] + across[2] * up[2];
    const level: Vec3 = [across[0] - rise * up[0], across[1] - rise * up[1], across[2] - rise * up[2]];
    const length = Math.hypot(...level);
    if (length > 1) left = [level[0] / length, level[1] / length, level[2] / length];
  }
  const forward: Vec3 = [
    left[1] * up[2] - left[2] * up[1],
    left[2] * up[0] - left[0] * up[2],
    left[0] * up[1] - left[1] * up[0],
  ];
  const ends = [rightAt, leftAt].filter((end) => end !== undefined);
  const origin: Vec3 = [0, 0, 0];
  for (const end of ends) for (let axis = 0; axis < 3; axis++) origin[axis]! += lab[end + axis]! / ends.length;
  const height = origin[0] * up[0] + origin[1] * up[1] + origin[2] * up[2];
  for (let axis = 0; axis < 3; axis++) origin[axis]! += (floorUp - height) * up[axis]!;
  return { forward, left, up, origin };
}
