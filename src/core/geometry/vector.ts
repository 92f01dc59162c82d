import * as vec3 from 'gl-matrix/esm/vec3.js';

/** A point or direction in three axes; millimetres for points. Plain numbers, so always double precision. */
export type Vec3 = [number, number, number];

export function subtract(a: Readonly<Vec3>, b: Readonly<Vec3>): Vec3 {
  return vec3.subtract([0, 0, 0], a, b) as Vec3;
}

export function add(a: Readonly<Vec3>, b: Readonly<Vec3>): Vec3 {
  return vec3.add([0, 0, 0], a, b) as Vec3;
}

export function scale(a: Readonly<Vec3>, factor: number): Vec3 {
  return vec3.scale([0, 0, 0], a, factor) as Vec3;
}

export function cross(a: Readonly<Vec3>, b: Readonly<Vec3>): Vec3 {
  return vec3.cross([0, 0, 0], a, b) as Vec3;
}

export function dot(a: Readonly<Vec3>, b: Readonly<Vec3>): number {
  return vec3.dot(a, b);
}

export function length(a: Readonly<Vec3>): number {
  return Math.sqrt(dot(a, a));
}

export function distance(a: Readonly<Vec3>, b: Readonly<Vec3>): number {
  return length(subtract(a, b));
}

export function midpoint(a: Readonly<Vec3>, b: Readonly<Vec3>): Vec3 {
  return vec3.lerp([0, 0, 0], a, b, 0.5) as Vec3;
}

/** Unit vector along `a`, or null where `a` is too short to have a direction. */
export function direction(a: Readonly<Vec3>): Vec3 | null {
  const size = length(a);
  return size > 1e-9 ? scale(a, 1 / size) : null;
}

/** The part of `a` that is square to the unit vector `axis`. */
export function squareTo(a: Readonly<Vec3>, axis: Readonly<Vec3>): Vec3 {
  return vec3.scaleAndAdd([0, 0, 0], a, axis, -dot(a, axis)) as Vec3;
}

/** Unit vector along x, y, z; NaN where they have no direction. */
export function unit(x: number, y: number, z: number): Vec3 {
  const size = Math.sqrt(x * x + y * y + z * z);
  return [x / size, y / size, z / size];
}
