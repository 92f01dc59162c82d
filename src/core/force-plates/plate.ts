import type { Vec3 } from '../geometry/vector.ts';

/**
 * What the channels of a plate hold (C3D user guide, FORCE_PLATFORM:TYPE): 1 three forces, the place of the centre of
 * pressure, and the free moment; 2 three forces and three moments; 3 eight forces of four sensors; 4 as 2, to be
 * multiplied by a calibration matrix.
 */
export type PlateType = 1 | 2 | 3 | 4;

/** A force plate as the file describes it. Lengths in the file's unit, corners in its axes. */
export interface ForcePlate {
  /** as people count them, from 1 */
  readonly number: number;
  readonly type: PlateType;
  /** analog channels from 0: six, or eight for type 3 */
  readonly channels: readonly number[];
  /** corners of the quadrants +x +y, -x +y, -x -y, +x -y of the plate's own axes */
  readonly corners: readonly [Vec3, Vec3, Vec3, Vec3];
  /**
   * Types 1, 2 and 4: from where the moments are measured to the middle of the surface, in the plate's axes. Type 3:
   * half the distances between the sensors along x and y, then as above along z.
   */
  readonly origin: Vec3;
  /** type 4: 36 numbers, column after column */
  readonly calibration: readonly number[] | null;
}

/** A plate that the file names and that cannot be used, and why: a clause that follows "because". */
export interface UnusablePlate {
  readonly number: number;
  readonly type: number | null;
  readonly reason: string;
}

/** The middle of a plate's surface and its axes, in the axes of the laboratory. */
export interface PlateAxes {
  readonly middle: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
  /** as the type definitions have it, into the floor */
  readonly z: Vec3;
}
