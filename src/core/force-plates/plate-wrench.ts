import type { Vec3 } from '../geometry/vector.ts';
import type { ForcePlate } from './plate.ts';

/** What acts on a plate in its own axes: force in the unit of its channels, and where it goes through the surface. */
export interface PlateWrench {
  readonly force: Vec3;
  /**
   * Centre of pressure from the middle of the surface, along the plate's x and y, in the file's unit of length; null
   * where hardly anything presses.
   */
  readonly centre: readonly [number, number] | null;
}

/** Under this share of the whole force a vertical part tells no place. */
const leastVerticalShare = 1e-6;

/**
 * Force and centre of pressure of one plate from the values of its channels (C3D user guide, FORCE_PLATFORM:TYPE, ORIGIN
 * and CAL_MATRIX). Everything is linear but the centre: means of channels give the mean force and the centre weighted
 * by force.
 *
 * The moment about the origin of a force that goes through the point p is p x F, and p lies on the surface, so that
 * its z is that of the vector ORIGIN, which ends there. For type 3 each of the four sensors is such a point: in the
 * quadrant of the corner of its number, as far from the middle as ORIGIN says.
 * @param values of the plate's channels, in their order
 * @param lengthsPerMoment how many of the file's units of length one unit of length of the moments is
 */
export function plateWrench(plate: ForcePlate, values: readonly number[], lengthsPerMoment: number): PlateWrench {
  if (plate.type === 1) {
    const [fx = 0, fy = 0, fz = 0, px = 0, py = 0] = values;
    const centre: [number, number] = [px * lengthsPerMoment - plate.origin[0], py * lengthsPerMoment - plate.origin[1]];
    return { force: [fx, fy, fz], centre: presses([fx, fy, fz]) ? centre : null };
  }
  if (plate.type === 3) {
    const [fx12 = 0, fx34 = 0, fy14 = 0, fy23 = 0, fz1 = 0, fz2 = 0, fz3 = 0, fz4 = 0] = values;
    const [a, b, surface] = plate.origin;
    const force: Vec3 = [fx12 + fx34, fy14 + fy23, fz1 + fz2 + fz3 + fz4];
    const mx = Math.abs(b) * (fz1 + fz2 - fz3 - fz4);
    const my = -Math.abs(a) * (fz1 - fz2 - fz3 + fz4);
    return { force, centre: centreFrom(force, mx, my, below(surface)) };
  }
  const six = plate.calibration === null ? values : calibrated(plate.calibration, values);
  const [fx = 0, fy = 0, fz = 0, mx = 0, my = 0] = six;
  const [x, y, surface] = plate.origin;
  const force: Vec3 = [fx, fy, fz];
  const centre = centreFrom(force, mx * lengthsPerMoment, my * lengthsPerMoment, below(surface));
  return { force, centre: centre && [centre[0] - x, centre[1] - y] };
}

/** Where a force with these moments about the origin goes through the plane at height `z`. */
function centreFrom(force: Vec3, mx: number, my: number, z: number): [number, number] | null {
  if (!presses(force)) return null;
  const [fx, fy, fz] = force;
  return [(z * fx - my) / fz, (z * fy + mx) / fz];
}

function presses([fx, fy, fz]: Vec3): boolean {
  return Math.abs(fz) > leastVerticalShare * Math.hypot(fx, fy, fz);
}

/**
 * The surface lies on the far side of the sensors from the z axis, which points into the floor: below zero. Files with
 * the other sign exist, from sheets that give the depth of the sensors as a positive number (C3D user guide, ORIGIN).
 */
function below(surface: number): number {
  return -Math.abs(surface);
}

/** Matrix times column; the matrix is stored column after column. */
function calibrated(matrix: readonly number[], values: readonly number[]): number[] {
  return values.map((_, row) => values.reduce((sum, value, column) => sum + matrix[column * 6 + row]! * value, 0));
}
