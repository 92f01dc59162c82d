import type { Unit } from '../rule-kinds/rule-kind.ts';

/** Decimals with which a value of each unit is written; a tenth of a millimetre is finer than any marker is placed. */
export const decimalsOf: Readonly<Record<Unit, number>> = { mm: 1, deg: 1, ratio: 3 };
export const probabilityDecimals = 2;
export const directionDecimals = 6;
export const rateDecimals = 3;
/** Newtons and kilograms. */
export const massAndForceDecimals = 1;

/**
 * Rounds half away from zero, so that right and left mirror each other; never -0. What is no finite number becomes
 * null: an open end of a range, or a value that the geometry does not give.
 */
export function roundTo(decimals: number, value: number): number | null {
  if (!Number.isFinite(value)) return null;
  const scale = 10 ** decimals;
  const size = Math.round(Math.abs(value) * scale) / scale;
  return value < 0 && size !== 0 ? -size : size;
}

/** A value as text with all its decimals, `-0.0` never; `-` where there is none. */
export function fixed(decimals: number, value: number | null): string {
  const rounded = value === null ? null : roundTo(decimals, value);
  return rounded === null ? '-' : rounded.toFixed(decimals);
}
