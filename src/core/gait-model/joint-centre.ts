import { add, cross, direction, dot, length, scale, squareTo, subtract, type Vec3 } from '../geometry/vector.ts';

/**
 * Centre of knee or ankle by the published construction (Davis et al. 1991, from memory): it lies in the plane of the
 * joint centre above, the lateral marker and a direction; `halfMm` from the lateral marker; and there the line to the
 * marker is square to the line to the centre above.
 *
 * @param above centre of the joint above
 * @param lateral marker on the outer side of this joint
 * @param medial unit vector square to the line from `lateral` to `above`, toward the inside of the leg, in the plane
 * @param halfMm half the width of the joint, marker radius and base plate
 * @returns null where the marker lies nearer to the joint above than half the width
 */
export function jointCentre(above: Vec3, lateral: Vec3, medial: Vec3, halfMm: number): Vec3 | null {
  const line = subtract(above, lateral);
  const distance = length(line);
  if (!(distance > halfMm)) return null;
  // By Thales the centre lies on the circle whose diameter is the line from the marker to the centre above.
  const along = (halfMm / distance) ** 2;
  const across = halfMm * Math.sqrt(1 - along);
  return add(lateral, add(scale(line, along), scale(medial, across)));
}

/**
 * Toward the inside of the leg, square to the line from `lateral` to `above`, as a wand on the outer side shows it. Null
 * where the wand lies on that line.
 */
export function medialByWand(above: Vec3, lateral: Vec3, wand: Vec3): Vec3 | null {
  const toward = medialByMarker(above, lateral, wand);
  return toward === null ? null : scale(toward, -1);
}

/** The same as a marker on the inner side shows it. */
export function medialByMarker(above: Vec3, lateral: Vec3, marker: Vec3): Vec3 | null {
  const line = direction(subtract(above, lateral));
  return line === null ? null : direction(squareTo(subtract(marker, lateral), line));
}

/** A direction square to the line from `lateral` to `above`, turned about it; radians, right-handed. */
export function turnAbout(above: Vec3, lateral: Vec3, square: Vec3, turnRad: number): Vec3 {
  const line = direction(subtract(above, lateral))!;
  return add(scale(square, Math.cos(turnRad)), scale(cross(line, square), Math.sin(turnRad)));
}

/** By how much `turnAbout` turns one such direction into another, radians. */
export function turnBetween(above: Vec3, lateral: Vec3, from: Vec3, to: Vec3): number {
  const line = direction(subtract(above, lateral))!;
  return Math.atan2(dot(cross(line, from), to), dot(from, to));
}
