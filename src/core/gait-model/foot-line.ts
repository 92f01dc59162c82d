import { add, cross, direction, dot, scale, squareTo, subtract, type Vec3 } from '../geometry/vector.ts';
import type { ReadPoint } from './point-reader.ts';

/** Line of a foot from heel to forefoot, as read from marker positions; unit vector. */
export type FootLine = (markers: Float64Array, ankle: Vec3) => Vec3 | null;

/** The foot as its markers lie: the line from the heel marker to the forefoot marker. */
export function footAsMarked(heel: ReadPoint, forefoot: ReadPoint): FootLine {
  return (markers) => {
    const from = heel(markers);
    const to = forefoot(markers);
    return from === null || to === null ? null : direction(subtract(to, from));
  };
}

/**
 * The foot taken as flat on the floor in the static trial: its line is levelled there, and from then on it stands to
 * heel, forefoot and ankle centre as it did (the static offset).
 * @returns null where the static trial does not show the foot
 */
export function footTakenFlat(
  heel: ReadPoint,
  forefoot: ReadPoint,
  standing: Float64Array,
  ankle: Vec3,
  up: Vec3,
): FootLine | null {
  const marked = footAsMarked(heel, forefoot);
  const axes = technicalAxes(marked(standing, ankle), heel(standing), ankle);
  const level = axes === null ? null : direction(squareTo(axes[0], up));
  if (axes === null || level === null) return null;
  const parts = axes.map((axis) => dot(axis, level)) as Vec3;
  return (markers, ankleNow) => {
    const now = technicalAxes(marked(markers, ankleNow), heel(markers), ankleNow);
    return now && add(add(scale(now[0], parts[0]), scale(now[1], parts[1])), scale(now[2], parts[2]));
  };
}

/** Axes that move with the foot: along its marked line, toward the ankle centre square to that, and square to both. */
function technicalAxes(line: Vec3 | null, heel: Vec3 | null, ankle: Vec3): readonly [Vec3, Vec3, Vec3] | null {
  if (line === null || heel === null) return null;
  const toAnkle = direction(squareTo(subtract(ankle, heel), line));
  return toAnkle === null ? null : [line, toAnkle, cross(line, toAnkle)];
}
