/**
 * DEC (VAX F_floating) numbers as stored: sign, 8-bit exponent with bias 128 and a mantissa 0.1m, so a DEC number has
 * the bits of the IEEE number four times as large, its two 16-bit words exchanged. Sign-magnitude; no infinity, no
 * NaN, no subnormal numbers. Layout: VAX Architecture Reference Manual, as quoted at https://docs.rs/vax-floating.
 */

const EXPONENT = 0x7f800000;
const MANTISSA = 0x007fffff;
const TWO_EXPONENT_STEPS = 0x01000000;

/**
 * Bits of the IEEE single of the same value. `stored` is the little-endian 32-bit word as it lies in the file. Both
 * as signed integers, which keeps the loop over a data section in integer arithmetic.
 */
export function decToIeeeBits(stored: number): number {
  const swapped = (stored << 16) | (stored >>> 16);
  return (swapped & EXPONENT) > TWO_EXPONENT_STEPS ? (swapped - TWO_EXPONENT_STEPS) | 0 : tinyDecToIeeeBits(swapped);
}

/**
 * The numbers below the smallest normal IEEE single; exponent 0 is read as zero: with a sign it is reserved,
 * and what a writer makes of a negative zero.
 */
function tinyDecToIeeeBits(swapped: number): number {
  const exponent = (swapped & EXPONENT) >>> 23;
  if (exponent === 0) return 0;
  return (swapped & 0x80000000) | ((0x00800000 | (swapped & MANTISSA)) >>> (3 - exponent));
}

/**
 * The little-endian word to store for an IEEE single. Magnitudes DEC cannot hold become its largest number, those
 * below its smallest become 0. NaN and infinity have no counterpart: callers must not pass them.
 */
export function ieeeToDecBits(ieee: number): number {
  const sign = ieee & 0x80000000;
  const exponent = (ieee & EXPONENT) >>> 23;
  const mantissa = ieee & MANTISSA;
  let bits = 0;
  if (exponent > 253) bits = sign | 0x7fffffff;
  else if (exponent > 0) bits = ieee + TWO_EXPONENT_STEPS;
  else if (mantissa >= 0x400000) bits = sign | (2 << 23) | ((mantissa << 1) & MANTISSA);
  else if (mantissa >= 0x200000) bits = sign | (1 << 23) | ((mantissa << 2) & MANTISSA);
  return (bits << 16) | (bits >>> 16);
}
