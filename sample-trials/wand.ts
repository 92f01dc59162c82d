import { add, cross, dot, scale, squareTo, subtract, type Vec3 } from '../src/core/geometry/vector.ts';
import { degrees, radians, unit } from './angles-and-directions.ts';
import { outwardSign, type Side } from './landmarks.ts';

/** Wand tip outside the marker-to-marker line: the lab's adult wands, and the shorter pair it keeps for children. */
export function wandOffsetsMm(statureMm: number): { thigh: number; shank: number } {
  return statureMm < 1400 ? { thigh: 82, shank: 72 } : { thigh: 98, shank: 86 };
}

/** Where a wand sits: the line between two markers, the joint axis it points along, and how it departs from that. */
export interface WandPlace {
  readonly top: Vec3;
  readonly bottom: Vec3;
  /** Outward along the joint axis; any length. */
  readonly axis: Vec3;
  readonly side: Side;
  readonly offsetMm: number;
  /** Share of the way from top to bottom; the middle by default. */
  readonly share?: number;
  /** Turned forward about the line, degrees; 0 lies in the plane of line and axis. */
  readonly turnDeg?: number;
}

/** Tip of a wand: square to the line, in the plane of line and joint axis, or turned out of that plane by `turnDeg`. */
export function wandTip({ top, bottom, axis, side, offsetMm, share = 0.5, turnDeg = 0 }: WandPlace): Vec3 {
  const upTheLine = unit(subtract(top, bottom));
  const outward = unit(squareTo(axis, upTheLine));
  const forward = scale(cross(outward, upTheLine), outwardSign(side));
  const base = add(top, scale(subtract(bottom, top), share));
  const turn = radians(turnDeg);
  return add(base, add(scale(outward, offsetMm * Math.cos(turn)), scale(forward, offsetMm * Math.sin(turn))));
}

/** How far a tip is turned forward about the line out of the plane of line and axis, degrees: the inverse of `wandTip`. */
export function wandTurnDeg(tip: Vec3, { top, bottom, axis, side }: Omit<WandPlace, 'offsetMm'>): number {
  const upTheLine = unit(subtract(top, bottom));
  const outward = unit(squareTo(axis, upTheLine));
  const forward = scale(cross(outward, upTheLine), outwardSign(side));
  const fromLine = subtract(tip, bottom);
  return degrees(Math.atan2(dot(fromLine, forward), dot(fromLine, outward)));
}

/** Distance of a wand tip from the line between the two markers it belongs to. */
export function wandOffsetMm(tip: Vec3, top: Vec3, bottom: Vec3): number {
  const across = squareTo(subtract(tip, bottom), unit(subtract(top, bottom)));
  return Math.sqrt(dot(across, across));
}
