import fc from 'fast-check';
import { expect, it } from 'vitest';
import { fitRigidly, moved } from '../../../src/core/geometry/rigid-fit.ts';
import type { Vec3 } from '../../../src/core/geometry/vector.ts';

const coordinate = fc.double({ min: -500, max: 500, noNaN: true });
const angle = fc.double({ min: -3, max: 3, noNaN: true });
const tetrahedron: Vec3[] = [
  [0, 0, 0],
  [100, 0, 0],
  [0, 80, 0],
  [0, 0, 300],
];

/** Turned about the three axes one after the other, independent of the quaternions of the fit. */
function turned([x, y, z]: Vec3, [a, b, c]: Vec3): Vec3 {
  const [y1, z1] = [y * Math.cos(a) - z * Math.sin(a), y * Math.sin(a) + z * Math.cos(a)];
  const [x2, z2] = [x * Math.cos(b) + z1 * Math.sin(b), -x * Math.sin(b) + z1 * Math.cos(b)];
  return [x2 * Math.cos(c) - y1 * Math.sin(c), x2 * Math.sin(c) + y1 * Math.cos(c), z2];
}

it('fitRigidly finds any turn and shift', () => {
  fc.assert(
    fc.property(fc.tuple(angle, angle, angle), fc.tuple(coordinate, coordinate, coordinate), (turns, shift) => {
      const to = tetrahedron.map((point) => turned(point, turns).map((value, axis) => value + shift[axis]!) as Vec3);
      const motion = fitRigidly(tetrahedron, to);
      for (const [index, point] of tetrahedron.entries())
        for (let axis = 0; axis < 3; axis++)
          expect(Math.abs(moved(motion, point)[axis]! - to[index]![axis]!)).toBeLessThan(1e-6);
    }),
  );
});

it('fitRigidly shares what one point is off among all, and never mirrors', () => {
  const mirrored = tetrahedron.map(([x, y, z]): Vec3 => [x, -y, z]);
  const { turn } = fitRigidly(tetrahedron, mirrored);
  const [[a, b, c], [d, e, f], [g, h, i]] = turn;
  expect(a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)).toBeCloseTo(1, 9);
  const off = tetrahedron.map((point, index): Vec3 => (index === 3 ? [point[0], point[1], 320] : point));
  const motion = fitRigidly(tetrahedron, off);
  const left = tetrahedron.map((point, index) => off[index]![2] - moved(motion, point)[2]);
  expect(left.reduce((sum, value) => sum + value, 0)).toBeCloseTo(0, 9);
  expect(left[3]).toBeGreaterThan(10);
});
