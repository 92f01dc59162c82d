import { add, cross, direction, dot, scale, squareTo, subtract, type Vec3 } from '../geometry/vector.ts';
import type { ForcePlate, PlateAxes } from './plate.ts';

/** Middle and axes of a plate from its corners; null where the corners span no surface. */
export function plateAxes([first, second, third, fourth]: ForcePlate['corners']): PlateAxes | null {
  const middle = scale(add(add(first, second), add(third, fourth)), 0.25);
  const x = direction(subtract(add(first, fourth), add(second, third)));
  const across = subtract(add(first, second), add(third, fourth));
  const y = x === null ? null : direction(squareTo(across, x));
  return x === null || y === null ? null : { middle, x, y, z: cross(x, y) };
}

/** Whether a point lies over a plate, looking along `up`; the edge counts as over it. */
export function isOver(point: Vec3, corners: ForcePlate['corners'], up: Vec3): boolean {
  // Inside a convex outline the point is on the same hand of every line from corner to corner.
  const hands = corners.map((from, i) => dot(cross(subtract(corners[(i + 1) % 4]!, from), subtract(point, from)), up));
  return hands.every((hand) => hand >= 0) || hands.every((hand) => hand <= 0);
}
