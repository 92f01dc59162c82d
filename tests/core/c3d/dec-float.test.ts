import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decToIeeeBits, ieeeToDecBits } from '../../../src/core/c3d/dec-float.ts';

const scratch = new DataView(new ArrayBuffer(4));

function toFloat(stored: number): number {
  scratch.setInt32(0, decToIeeeBits(stored | 0));
  return scratch.getFloat32(0);
}

function toDec(value: number): number {
  scratch.setFloat32(0, value);
  return ieeeToDecBits(scratch.getInt32(0)) >>> 0;
}

// USGS Open-File Report 2005-1424 (libvaxdata), test values for F_floating as little-endian 32-bit words.
const published: [number, number][] = [
  [0x00004080, 1],
  [0x0000c080, -1],
  [0x00004160, 3.5],
  [0x0000c160, -3.5],
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: the published value is not pi
  [0x0fd04149, 3.14159],
  // biome-ignore lint/suspicious/noApproximativeNumericConstant: the published value is not pi
  [0x0fd0c149, -3.14159],
  [0xbdc27df0, 9.9999999e36],
  [0xbdc2fdf0, -9.9999999e36],
  [0x1cea0308, 9.9999999e-38],
  [0x1cea8308, -9.9999999e-38],
  [0x0652409e, 1.23456789],
  [0x0652c09e, -1.23456789],
];

test.each(published)('the published word %i is %f', (stored, value) => {
  expect(toFloat(stored)).toBe(Math.fround(value));
  expect(toDec(value)).toBe(stored);
});

/** From the definition in the VAX Architecture Reference Manual: sign * (1/2 + m / 2^24) * 2^(e - 128). */
function byDefinition(stored: number): number {
  const first = stored & 0xffff;
  const exponent = (first >>> 7) & 0xff;
  const mantissa = ((first & 0x7f) << 16) | (stored >>> 16);
  if (exponent === 0) return 0;
  return (first & 0x8000 ? -1 : 1) * (0.5 + mantissa / 2 ** 24) * 2 ** (exponent - 128);
}

test('every word has the value of its definition, in single precision', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 0xffffffff }), (stored) => {
      const exponent = (stored >>> 7) & 0xff;
      // Below the normal IEEE range bits drop off the end: cut, not rounded.
      const expected = byDefinition(stored);
      if (exponent > 2) expect(toFloat(stored)).toBe(expected);
      else expect(Math.abs(toFloat(stored) - expected)).toBeLessThan(2 ** -149);
    }),
  );
});

test.each([0, 1, 2, 3, 4, 254, 255])('exponent %i, both signs', (exponent) => {
  for (const sign of [0, 0x8000]) {
    for (const mantissa of [0, 1, 0x1234, 0x400000, 0x7fffff]) {
      const stored = (sign | (exponent << 7) | (mantissa >>> 16) | ((mantissa & 0xffff) << 16)) >>> 0;
      const expected = byDefinition(stored);
      expect(Math.abs(toFloat(stored) - expected)).toBeLessThan(exponent > 2 ? 2 ** -200 : 2 ** -149);
      if (exponent > 2) expect(toDec(expected)).toBe(stored);
    }
  }
});

test('what is written is read back, over the whole range DEC can hold', () => {
  const finite = fc.float({ noNaN: true, min: -Math.fround(2 ** 127 * 0.999), max: Math.fround(2 ** 127 * 0.999) });
  fc.assert(
    fc.property(finite, (value) => {
      const kept = Math.abs(value) >= 2 ** -126 ? value : toFloat(toDec(value));
      expect(toFloat(toDec(value))).toBe(kept);
      expect(Math.abs(kept - value)).toBeLessThan(2 ** -128);
    }),
  );
});

test('zero, negative zero and the reserved word are zero', () => {
  expect(toDec(0)).toBe(0);
  expect(toFloat(toDec(-0))).toBe(0);
  expect(toFloat(0x00008000)).toBe(0);
  expect(toFloat(0x12348000)).toBe(0);
});

test('numbers beyond the range become the largest of their sign', () => {
  expect(toFloat(toDec(3.4e38))).toBe(Math.fround(2 ** 127 * (1 - 2 ** -24)));
  expect(toFloat(toDec(-3.4e38))).toBe(-Math.fround(2 ** 127 * (1 - 2 ** -24)));
});
