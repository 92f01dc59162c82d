import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decodeText } from '../../../src/core/c3d/decode-text.ts';
import { encodeText } from '../../../src/core/c3d/encode-text.ts';

const decode = (...bytes: number[]) => decodeText(Uint8Array.from(bytes), 0, bytes.length);

test('encodes as TextEncoder does and decodes as TextDecoder does', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      const bytes = encodeText(text);
      expect(bytes).toEqual([...new TextEncoder().encode(text)]);
      const untilNul = text.split('\0')[0]!;
      expect(decode(...bytes)).toBe(
        new TextDecoder('utf-8', { ignoreBOM: true }).decode(new TextEncoder().encode(untilNul)).trim(),
      );
    }),
    { numRuns: 300 },
  );
});

test('any bytes decode: as UTF-8 where TextDecoder takes them, else byte for letter', () => {
  const strict = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  const lead = fc.constantFrom(
    0x41,
    0x7f,
    0x80,
    0xbf,
    0xc0,
    0xc2,
    0xdf,
    0xe0,
    0xed,
    0xef,
    0xf0,
    0xf4,
    0xf5,
    0xff,
    0x9f,
    0xa0,
    0x90,
  );
  fc.assert(
    fc.property(fc.array(lead, { maxLength: 5 }), (bytes) => {
      let expected: string;
      try {
        expected = strict.decode(Uint8Array.from(bytes));
      } catch {
        expected = String.fromCharCode(...bytes);
      }
      expect(decode(...bytes)).toBe(expected.trim());
    }),
    { numRuns: 1000 },
  );
});

test.each([
  [[0xe0, 0x9f, 0xbf], '\u00e0\u009f\u00bf'],
  [[0xf0, 0x8f, 0xbf, 0xbf], '\u00f0\u008f\u00bf\u00bf'],
  [[0xed, 0xa0, 0x80], '\u00ed\u00a0\u0080'],
  [[0xf4, 0x90, 0x80, 0x80], '\u00f4\u0090\u0080\u0080'],
])('overlong forms, surrogates and points beyond the last are no UTF-8: %j', (bytes, latin) => {
  expect(decode(...bytes)).toBe(latin);
});

test('padding of spaces goes, at both ends; letters of the middle stay', () => {
  expect(decode(0x20, 0x53, 0x20, 0x31, 0x20, 0x20)).toBe('S 1');
  expect(decode(0x20, 0x20)).toBe('');
  expect(decode(0, 0x53)).toBe('');
});
