import { add, distance, dot, scale, subtract, type Vec3 } from '../src/core/geometry/vector.ts';
import { type MarkerPositions, markerLabel, type Side, type SideLandmark } from './landmarks.ts';
import { wandTip, wandTurnDeg } from './wand.ts';

/** The markers that each wand is set by: line from top to bottom, joint axis from medial to lateral. */
export const WAND_MARKERS = {
  TW: { top: 'GT', bottom: 'LE', medial: 'ME', lateral: 'LE' },
  SW: { top: 'HF', bottom: 'LM', medial: 'MM', lateral: 'LM' },
} as const satisfies Record<string, Record<string, SideLandmark>>;

/** A shift in body axes, millimetres; what is left out is 0. */
export interface BodyShift {
  readonly forward?: number;
  readonly left?: number;
  readonly up?: number;
}

/** The positions with one marker moved. */
export function displace(positions: MarkerPositions, label: string, shift: BodyShift): MarkerPositions {
  const moved: Vec3 = [shift.forward ?? 0, shift.left ?? 0, shift.up ?? 0];
  return new Map(positions).set(label, add(required(positions, label), moved));
}

/**
 * The positions with one wand turned about the line between its two markers, forward positive, degrees. The tip keeps its
 * height along the line and its distance from it, as a wand does whose plate slides round the limb.
 */
export function turnWand(
  positions: MarkerPositions,
  side: Side,
  wand: keyof typeof WAND_MARKERS,
  forwardDeg: number,
): MarkerPositions {
  const at = (landmark: SideLandmark): Vec3 => required(positions, markerLabel(side, landmark));
  const { top, bottom, medial, lateral } = WAND_MARKERS[wand];
  const place = { top: at(top), bottom: at(bottom), axis: subtract(at(lateral), at(medial)), side };
  const tip = at(wand);
  const line = subtract(place.bottom, place.top);
  const fromTop = subtract(tip, place.top);
  const share = dot(line, fromTop) / dot(line, line);
  const base = add(place.top, scale(line, share));
  const turned = wandTip({
    ...place,
    share,
    offsetMm: distance(tip, base),
    turnDeg: wandTurnDeg(tip, place) + forwardDeg,
  });
  return new Map(positions).set(markerLabel(side, wand), turned);
}

/** The positions with two labels exchanged. */
export function swapLabels(positions: MarkerPositions, first: string, second: string): MarkerPositions {
  return new Map(positions).set(first, required(positions, second)).set(second, required(positions, first));
}

/** The positions with every right label exchanged with its left one. */
export function swapSides(positions: MarkerPositions): MarkerPositions {
  const rights = [...positions.keys()].filter((label) => label.startsWith('R_'));
  return rights.reduce((swapped, label) => swapLabels(swapped, label, label.replace('R_', 'L_')), positions);
}

/** The positions without one marker: its label stays in the file, never visible. */
export function remove(positions: MarkerPositions, label: string): MarkerPositions {
  required(positions, label);
  const left = new Map(positions);
  left.delete(label);
  return left;
}

function required(positions: MarkerPositions, label: string): Vec3 {
  const position = positions.get(label);
  if (position === undefined) throw new RangeError(`No marker ${label} to plant a fault on.`);
  return position;
}
