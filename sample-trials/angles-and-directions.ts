import { direction, type Vec3 } from '../src/core/geometry/vector.ts';

/** Unit vector along `a`. */
export function unit(a: Readonly<Vec3>): Vec3 {
  const found = direction(a);
  if (found === null) throw new RangeError('A direction was asked of two points that coincide.');
  return found;
}

export function radians(deg: number): number {
  return (deg * Math.PI) / 180;
}

export function degrees(rad: number): number {
  return (rad * 180) / Math.PI;
}
