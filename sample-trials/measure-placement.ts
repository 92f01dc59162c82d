import {
  cross,
  direction,
  distance,
  dot,
  midpoint,
  squareTo,
  subtract,
  type Vec3,
} from '../src/core/geometry/vector.ts';
import { degrees } from './angles-and-directions.ts';
import { type MarkerPositions, markerLabel, outwardSign, type Side, type SideLandmark } from './landmarks.ts';
import { WAND_MARKERS } from './plant-fault.ts';
import { wandOffsetMm, wandTurnDeg } from './wand.ts';

/** One side as the markers show it; angles in degrees, lengths in millimetres. */
export interface SidePlacement {
  readonly kneeTurnDeg: number;
  readonly tibialTorsionDeg: number;
  readonly footProgressionDeg: number;
  readonly thighWandTurnForwardDeg: number;
  readonly thighWandOffsetMm: number;
  readonly shankWandTurnForwardDeg: number;
  readonly shankWandOffsetMm: number;
  readonly heelAboveMet5Mm: number;
  /** Along the shank. */
  readonly fibulaBelowEpicondyleMm: number;
  readonly legLengthMm: number;
  readonly kneeWidthMm: number;
  readonly ankleWidthMm: number;
}

/** Reads one side off the marker positions (body axes), without knowing how they were made. */
export function measureSide(positions: MarkerPositions, side: Side, markerRadiusMm: number): SidePlacement {
  const at = (landmark: SideLandmark): Vec3 => positions.get(markerLabel(side, landmark))!;
  const outward = outwardSign(side);
  const kneeAxis = subtract(at('LE'), at('ME'));
  const ankleAxis = subtract(at('LM'), at('MM'));
  const upTheShank = direction(subtract(midpoint(at('LE'), at('ME')), midpoint(at('LM'), at('MM'))))!;
  const foot = subtract(at('MET2'), at('HEEL'));
  const wand = (name: keyof typeof WAND_MARKERS) => {
    const { top, bottom, medial, lateral } = WAND_MARKERS[name];
    const place = { top: at(top), bottom: at(bottom), axis: subtract(at(lateral), at(medial)), side };
    return {
      turnDeg: wandTurnDeg(at(name), place),
      offsetMm: wandOffsetMm(at(name), place.top, place.bottom),
    };
  };
  const thigh = wand('TW');
  const shank = wand('SW');
  return {
    kneeTurnDeg: degrees(Math.atan2(-kneeAxis[0], outward * kneeAxis[1])),
    tibialTorsionDeg:
      outward * turnAboutDeg(squareTo(kneeAxis, upTheShank), squareTo(ankleAxis, upTheShank), upTheShank),
    footProgressionDeg: degrees(Math.atan2(outward * foot[1], foot[0])),
    thighWandTurnForwardDeg: thigh.turnDeg,
    thighWandOffsetMm: thigh.offsetMm,
    shankWandTurnForwardDeg: shank.turnDeg,
    shankWandOffsetMm: shank.offsetMm,
    heelAboveMet5Mm: at('HEEL')[2] - at('MET5')[2],
    fibulaBelowEpicondyleMm: dot(subtract(at('LE'), at('HF')), upTheShank),
    legLengthMm: distance(at('ASIS'), at('MM')),
    kneeWidthMm: distance(at('LE'), at('ME')) - 2 * markerRadiusMm,
    ankleWidthMm: distance(at('LM'), at('MM')) - 2 * markerRadiusMm,
  };
}

/** Pelvis and trunk as the markers show them. */
export interface MidlinePlacement {
  readonly pelvicSlopeDeg: number;
  readonly leftAsisAboveRightMm: number;
  readonly asisDistanceMm: number;
  readonly sacralLeftOfMiddleMm: number;
  readonly shouldersForwardOfTrochantersMm: number;
}

export function measureMidline(positions: MarkerPositions): MidlinePlacement {
  const right = positions.get('R_ASIS')!;
  const left = positions.get('L_ASIS')!;
  const middle = midpoint(right, left);
  const sacral = positions.get('S1')!;
  const shoulders = midpoint(positions.get('R_ACR')!, positions.get('L_ACR')!);
  const trochanters = midpoint(positions.get('R_GT')!, positions.get('L_GT')!);
  return {
    pelvicSlopeDeg: degrees(Math.atan2(sacral[2] - middle[2], middle[0] - sacral[0])),
    leftAsisAboveRightMm: left[2] - right[2],
    asisDistanceMm: distance(right, left),
    sacralLeftOfMiddleMm: sacral[1] - middle[1],
    shouldersForwardOfTrochantersMm: shoulders[0] - trochanters[0],
  };
}

/** Angle from one direction to another, both square to `axis`, counter-clockwise seen from its tip. */
function turnAboutDeg(from: Vec3, to: Vec3, axis: Vec3): number {
  return degrees(Math.atan2(dot(axis, cross(from, to)), dot(from, to)));
}
