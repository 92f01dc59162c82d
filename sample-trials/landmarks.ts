import type { Vec3 } from '../src/core/geometry/vector.ts';

export type Side = 'right' | 'left';
export const SIDES: readonly Side[] = ['right', 'left'];

export const MIDLINE_LANDMARKS = ['C7', 'S1'] as const;
export const SIDE_LANDMARKS = [
  'ACR',
  'ASIS',
  'PSIS',
  'GT',
  'TW',
  'LE',
  'ME',
  'HF',
  'SW',
  'LM',
  'MM',
  'HEEL',
  'MET5',
  'MET2',
] as const;
export type SideLandmark = (typeof SIDE_LANDMARKS)[number];

/** Marker centres by label (`C7`, `R_LE`, ...), millimetres along forward, left, up; the floor is at up = 0. */
export type MarkerPositions = ReadonlyMap<string, Vec3>;

export function markerLabel(side: Side, landmark: SideLandmark): string {
  return `${side === 'right' ? 'R' : 'L'}_${landmark}`;
}

/** +1 where outward is to the left, -1 where it is to the right. */
export function outwardSign(side: Side): 1 | -1 {
  return side === 'left' ? 1 : -1;
}
