import { dot, type Vec3 } from '../geometry/vector.ts';
import { degreesPerRadian } from '../rule-kinds/positions.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import type { Frame } from './frame.ts';

/**
 * Angles of one segment against another: the Cardan sequence about the upper segment's left axis, then the turned
 * forward axis, then the lower segment's own up axis (Grood and Suntay 1983, from memory). Degrees, right-handed.
 */
export interface CardanAngles {
  readonly aboutLeft: number;
  readonly aboutForward: number;
  readonly aboutUp: number;
}

export function cardanAngles(upper: Frame, lower: Frame): CardanAngles {
  const tipped = -dot(upper.left, lower.up);
  return {
    aboutLeft: degrees(Math.atan2(dot(upper.forward, lower.up), dot(upper.up, lower.up))),
    aboutForward: degrees(Math.asin(Math.max(-1, Math.min(1, tipped)))),
    aboutUp: degrees(Math.atan2(dot(upper.left, lower.forward), dot(upper.left, lower.left))),
  };
}

/** Pelvis against the reference: forward tilt, right side higher, turned to the left are positive. Degrees. */
export function pelvisAngles(pelvis: Frame, reference: Frame): { tilt: number; obliquity: number; rotation: number } {
  const { aboutLeft, aboutForward, aboutUp } = cardanAngles(reference, pelvis);
  return { tilt: aboutLeft, obliquity: -aboutForward, rotation: aboutUp };
}

/** Thigh against pelvis: flexion, adduction and inward rotation are positive. Degrees. */
export function hipAngles(
  pelvis: Frame,
  thigh: Frame,
  side: Side,
): { flexion: number; adduction: number; rotation: number } {
  const { aboutLeft, aboutForward, aboutUp } = cardanAngles(pelvis, thigh);
  const sign = side === 'right' ? 1 : -1;
  return { flexion: -aboutLeft, adduction: sign * aboutForward, rotation: sign * aboutUp };
}

/** Shank against thigh: flexion, varus and inward rotation are positive. Degrees. */
export function kneeAngles(
  thigh: Frame,
  shank: Frame,
  side: Side,
): { flexion: number; varus: number; rotation: number } {
  const { aboutLeft, aboutForward, aboutUp } = cardanAngles(thigh, shank);
  const sign = side === 'right' ? 1 : -1;
  return { flexion: aboutLeft, varus: sign * aboutForward, rotation: sign * aboutUp };
}

/**
 * Line of the foot against the shank: about the shank's left axis (dorsiflexion positive), then out of that plane
 * (inward rotation positive). A line alone has no inversion. Degrees.
 */
export function ankleAngles(shank: Frame, foot: Vec3, side: Side): { dorsiflexion: number; rotation: number } {
  const sign = side === 'right' ? 1 : -1;
  return {
    dorsiflexion: degrees(Math.atan2(dot(foot, shank.up), dot(foot, shank.forward))),
    rotation: sign * degrees(Math.asin(Math.max(-1, Math.min(1, dot(foot, shank.left))))),
  };
}

/** Line of the foot against the reference, seen from above; turned out is positive. Degrees. */
export function footProgression(foot: Vec3, reference: Frame, side: Side): number {
  const sign = side === 'right' ? -1 : 1;
  return sign * degrees(Math.atan2(dot(foot, reference.left), dot(foot, reference.forward)));
}

function degrees(radians: number): number {
  return radians * degreesPerRadian;
}
