const mostSweeps = 60;

/** Values in no order; `vectors[k]` is the unit vector of `values[k]`. */
export interface Eigen {
  readonly values: Float64Array;
  readonly vectors: readonly Float64Array[];
}

/**
 * Eigenvalues and eigenvectors of a symmetric matrix by cyclic Jacobi rotations (Golub and Van Loan, Matrix
 * Computations, section 8.5; from memory). Meant for a hundred rows at most.
 * @param matrix row-major n x n; its upper triangle is read
 */
export function symmetricEigen(matrix: Float64Array, n: number): Eigen {
  const a = matrix.slice();
  for (let i = 0; i < n; i++) for (let j = 0; j < i; j++) a[i * n + j] = a[j * n + i]!;
  const vectors = Array.from({ length: n }, (_, k) => Float64Array.from({ length: n }, (__, i) => (i === k ? 1 : 0)));
  for (let sweep = 0; sweep < mostSweeps; sweep++) {
    let off = 0;
    let whole = 0;
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        const square = a[i * n + j]! ** 2;
        whole += square;
        if (i !== j) off += square;
      }
    if (off <= 1e-28 * whole) break;
    for (let p = 0; p < n - 1; p++) for (let q = p + 1; q < n; q++) rotate(a, vectors, n, p, q);
  }
  return { values: Float64Array.from({ length: n }, (_, k) => a[k * n + k]!), vectors };
}

/** Turns rows and columns p and q so that what they share becomes nothing. */
function rotate(a: Float64Array, vectors: readonly Float64Array[], n: number, p: number, q: number): void {
  const shared = a[p * n + q]!;
  if (shared === 0) return;
  const theta = (a[q * n + q]! - a[p * n + p]!) / (2 * shared);
  const t = (theta < 0 ? -1 : 1) / (Math.abs(theta) + Math.hypot(theta, 1));
  const c = 1 / Math.hypot(t, 1);
  const s = t * c;
  for (let k = 0; k < n; k++) {
    const [x, y] = [a[k * n + p]!, a[k * n + q]!];
    a[k * n + p] = c * x - s * y;
    a[k * n + q] = s * x + c * y;
  }
  for (let k = 0; k < n; k++) {
    const [x, y] = [a[p * n + k]!, a[q * n + k]!];
    a[p * n + k] = c * x - s * y;
    a[q * n + k] = s * x + c * y;
  }
  const [u, v] = [vectors[p]!, vectors[q]!];
  for (let k = 0; k < n; k++) {
    const [x, y] = [u[k]!, v[k]!];
    u[k] = c * x - s * y;
    v[k] = s * x + c * y;
  }
}
