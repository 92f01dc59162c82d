import type { Vec3 } from './vector.ts';

/** A rigid motion: turn, then shift. */
export interface RigidMotion {
  /** Rows of the rotation matrix. */
  readonly turn: readonly [Vec3, Vec3, Vec3];
  readonly shift: Vec3;
}

/**
 * The rigid motion that brings points nearest to others, least squares (Horn 1987, J Opt Soc Am A 4:629-642: the rotation is
 * the eigenvector of the largest eigenvalue of a symmetric 4 x 4 matrix). Three or more points that are not on one line.
 * @param from points, and `to` where they are to come; same order, same unit
 * @param weights how much each counts; all alike where none are given
 */
export function fitRigidly(
  from: readonly Vec3[],
  to: readonly Vec3[],
  weights: readonly number[] = from.map(() => 1),
): RigidMotion {
  const a = middle(from, weights);
  const b = middle(to, weights);
  const s = [0, 1, 2].map((i) =>
    [0, 1, 2].map((j) =>
      from.reduce((sum, point, at) => sum + weights[at]! * (point[i]! - a[i]!) * (to[at]![j]! - b[j]!), 0),
    ),
  ) as [Vec3, Vec3, Vec3];
  const [[xx, xy, xz], [yx, yy, yz], [zx, zy, zz]] = s;
  const [w, x, y, z] = largestEigenvector([
    [xx + yy + zz, yz - zy, zx - xz, xy - yx],
    [yz - zy, xx - yy - zz, xy + yx, zx + xz],
    [zx - xz, xy + yx, yy - xx - zz, yz + zy],
    [xy - yx, zx + xz, yz + zy, zz - xx - yy],
  ]);
  const turn: RigidMotion['turn'] = [
    [w * w + x * x - y * y - z * z, 2 * (x * y - w * z), 2 * (x * z + w * y)],
    [2 * (x * y + w * z), w * w - x * x + y * y - z * z, 2 * (y * z - w * x)],
    [2 * (x * z - w * y), 2 * (y * z + w * x), w * w - x * x - y * y + z * z],
  ];
  const turned = rotated(turn, a);
  return { turn, shift: [b[0] - turned[0], b[1] - turned[1], b[2] - turned[2]] };
}

export function moved({ turn, shift }: RigidMotion, point: Readonly<Vec3>): Vec3 {
  const [x, y, z] = rotated(turn, point);
  return [x + shift[0], y + shift[1], z + shift[2]];
}

/** The motion taken back. */
export function movedBack({ turn, shift }: RigidMotion, point: Readonly<Vec3>): Vec3 {
  const by = [point[0] - shift[0], point[1] - shift[1], point[2] - shift[2]] as const;
  return [0, 1, 2].map((i) => turn[0][i]! * by[0] + turn[1][i]! * by[1] + turn[2][i]! * by[2]) as Vec3;
}

export function rotated(turn: RigidMotion['turn'], [x, y, z]: Readonly<Vec3>): Vec3 {
  return turn.map((row) => row[0] * x + row[1] * y + row[2] * z) as Vec3;
}

function middle(points: readonly Vec3[], weights: readonly number[]): Vec3 {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return [0, 1, 2].map(
    (axis) => points.reduce((sum, point, at) => sum + weights[at]! * point[axis]!, 0) / total,
  ) as Vec3;
}

type Vec4 = [number, number, number, number];
const sweeps = 30;

/** By Jacobi's rotations; unit length. */
function largestEigenvector(matrix: number[][]): Vec4 {
  const vectors = [0, 1, 2, 3].map((i) => [0, 1, 2, 3].map((j) => (i === j ? 1 : 0)));
  for (let sweep = 0; sweep < sweeps; sweep++) {
    let off = 0;
    for (let p = 0; p < 3; p++) {
      for (let q = p + 1; q < 4; q++) {
        const value = matrix[p]![q]!;
        off += Math.abs(value);
        if (value === 0) continue;
        const theta = (matrix[q]![q]! - matrix[p]![p]!) / (2 * value);
        const t = Math.sign(theta || 1) / (Math.abs(theta) + Math.sqrt(theta * theta + 1));
        const c = 1 / Math.sqrt(t * t + 1);
        for (const rows of [matrix, vectors]) turnColumns(rows, p, q, c, t * c);
        turnRows(matrix, p, q, c, t * c);
      }
    }
    if (off === 0) break;
  }
  const largest = [0, 1, 2, 3].reduce((best, i) => (matrix[i]![i]! > matrix[best]![best]! ? i : best));
  return vectors.map((row) => row[largest]!) as Vec4;
}

function turnColumns(rows: number[][], p: number, q: number, c: number, s: number): void {
  for (const row of rows) [row[p], row[q]] = [c * row[p]! - s * row[q]!, s * row[p]! + c * row[q]!];
}

function turnRows(matrix: number[][], p: number, q: number, c: number, s: number): void {
  for (let i = 0; i < 4; i++) {
    [matrix[p]![i], matrix[q]![i]] = [c * matrix[p]![i]! - s * matrix[q]![i]!, s * matrix[p]![i]! + c * matrix[q]![i]!];
  }
}
