import { symmetricEigen } from '../geometry/symmetric-eigen.ts';
import { robustScale } from './robust-scale.ts';

/**
 * Robust correlation of each pair of columns from the scales of their sum and difference (Gnanadesikan and Kettenring
 * 1972, Biometrics 28:81-124). Pair by pair, so that a value that is missing or off costs its own pairs and not the whole
 * person, as where each trial in five has another marker off (Alqallaf et al. 2009, Ann Stat 37:311-331: cellwise
 * contamination; from memory).
 * @param columns standardised values of each column, one for each person; NaN where there is none
 * @param fewest under so many people who have both, the pair stays NaN
 * @returns row-major, ones on the diagonal
 */
export function pairwiseCorrelation(columns: readonly Float64Array[], fewest: number): Float64Array {
  const p = columns.length;
  const matrix = new Float64Array(p * p).fill(Number.NaN);
  for (let i = 0; i < p; i++) {
    matrix[i * p + i] = 1;
    for (let j = 0; j < i; j++) {
      const correlation = ofPair(columns[i]!, columns[j]!, fewest);
      matrix[i * p + j] = correlation;
      matrix[j * p + i] = correlation;
    }
  }
  return matrix;
}

function ofPair(a: Float64Array, b: Float64Array, fewest: number): number {
  const sums: number[] = [];
  const differences: number[] = [];
  a.forEach((value, person) => {
    const other = b[person]!;
    if (Number.isNaN(value) || Number.isNaN(other)) return;
    sums.push(value + other);
    differences.push(value - other);
  });
  if (sums.length < fewest) return Number.NaN;
  const plus = robustScale(Float64Array.from(sums)) ** 2;
  const minus = robustScale(Float64Array.from(differences)) ** 2;
  return plus + minus === 0 ? Number.NaN : (plus - minus) / (plus + minus);
}

/**
 * The nearest thing to it that can be a correlation matrix: negative eigenvalues, which pairs by themselves may give,
 * are set to nothing and the diagonal back to one (Rousseeuw and Molenberghs 1993, Commun Stat Theory Methods
 * 22:965-984: the eigenvalue method; from memory).
 */
export function asCorrelation(matrix: Float64Array, p: number): Float64Array {
  const { values, vectors } = symmetricEigen(matrix, p);
  if (values.every((value) => value >= 0)) return matrix;
  const kept = new Float64Array(p * p);
  values.forEach((value, k) => {
    if (value <= 0) return;
    const vector = vectors[k]!;
    for (let i = 0; i < p; i++) for (let j = 0; j < p; j++) kept[i * p + j]! += value * vector[i]! * vector[j]!;
  });
  const size = Float64Array.from({ length: p }, (_, i) => Math.sqrt(kept[i * p + i]!));
  return kept.map((value, at) => {
    const [i, j] = [Math.floor(at / p), at % p];
    return i === j ? 1 : size[i]! * size[j]! === 0 ? 0 : value / (size[i]! * size[j]!);
  });
}
