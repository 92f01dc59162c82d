/**
 * Lower triangle of a symmetric positive definite matrix, row-major n x n, such that L * L' is the matrix. In place:
 * only the lower triangle is read and written.
 * @returns false where the matrix is not positive definite to working precision; its content is then meaningless
 */
export function choleskyInPlace(matrix: Float64Array, n: number): boolean {
  for (let column = 0; column < n; column++) {
    let pivot = matrix[column * n + column]!;
    for (let k = 0; k < column; k++) pivot -= matrix[column * n + k]! ** 2;
    if (!(pivot > 0)) return false;
    const root = Math.sqrt(pivot);
    matrix[column * n + column] = root;
    for (let row = column + 1; row < n; row++) {
      let value = matrix[row * n + column]!;
      for (let k = 0; k < column; k++) value -= matrix[row * n + k]! * matrix[column * n + k]!;
      matrix[row * n + column] = value / root;
    }
  }
  return true;
}

/** Solves L * y = v in place for a lower triangle as above. */
export function solveLowerInPlace(lower: Float64Array, n: number, v: Float64Array): void {
  for (let row = 0; row < n; row++) {
    let value = v[row]!;
    for (let k = 0; k < row; k++) value -= lower[row * n + k]! * v[k]!;
    v[row] = value / lower[row * n + row]!;
  }
}

/** Solves L' * y = v in place. */
export function solveLowerTransposedInPlace(lower: Float64Array, n: number, v: Float64Array): void {
  for (let row = n - 1; row >= 0; row--) {
    let value = v[row]!;
    for (let k = row + 1; k < n; k++) value -= lower[k * n + row]! * v[k]!;
    v[row] = value / lower[row * n + row]!;
  }
}

/** Logarithm of the determinant of L * L'. */
export function logDeterminant(lower: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += Math.log(lower[i * n + i]!);
  return 2 * sum;
}
