import type { ByteReader } from './byte-reader.ts';
import { decodeText } from './decode-text.ts';

export type C3dParameterType = 'char' | 'byte' | 'int16' | 'float';

/**
 * One parameter. Arrays are stored first dimension fastest, and `values` keeps that order; the first dimension of a
 * char parameter is the length of its strings, so `values` has one string for each of the remaining dimensions.
 * Bytes are unsigned, int16 signed as stored (counts over 32767 come out negative: see unsignedWord).
 */
export interface C3dParameter {
  name: string;
  description: string;
  type: C3dParameterType;
  /** up to seven dimensions of 0-255; none for a single value */
  dimensions: readonly number[];
  values: readonly string[] | readonly number[];
}

const typesByCode: ReadonlyMap<number, { type: C3dParameterType; bytes: number }> = new Map([
  [-1, { type: 'char', bytes: 1 }],
  [1, { type: 'byte', bytes: 1 }],
  [2, { type: 'int16', bytes: 2 }],
  [4, { type: 'float', bytes: 4 }],
]);

/**
 * Reads type, dimensions and values at `offset`. Null where the type is unknown, the values would leave the file or
 * exceed what is left of `budget`, which bounds the memory a hostile section can claim.
 */
export function readParameterValues(
  reader: ByteReader,
  offset: number,
  budget: { bytes: number },
): { content: Omit<C3dParameter, 'name' | 'description'>; end: number } | null {
  if (offset + 2 > reader.byteLength) return null;
  const kind = typesByCode.get(reader.int8(offset));
  const dimensionCount = reader.uint8(offset + 1);
  const start = offset + 2 + dimensionCount;
  if (kind === undefined || dimensionCount > 7 || start > reader.byteLength) return null;
  const dimensions: number[] = [];
  for (let i = 0; i < dimensionCount; i++) dimensions.push(reader.uint8(offset + 2 + i));
  const count = dimensions.reduce((product, size) => product * size, 1);
  const end = start + count * kind.bytes;
  if (end > reader.byteLength) return null;
  // Empty strings cost memory too: no bytes, but up to 255^6 of them.
  const strings = kind.type === 'char' ? dimensions.slice(1).reduce((product, size) => product * size, 1) : 0;
  budget.bytes -= Math.max(end - start, strings);
  if (budget.bytes < 0) return null;
  const values =
    kind.type === 'char'
      ? readStrings(reader, start, dimensions, strings)
      : readNumbers(reader, start, kind.type, count);
  return { content: { type: kind.type, dimensions, values }, end };
}

function readStrings(reader: ByteReader, start: number, dimensions: number[], count: number): string[] {
  const length = dimensions[0] ?? 1;
  const strings: string[] = [];
  for (let i = 0; i < count; i++) strings.push(decodeText(reader.bytes, start + i * length, length));
  return strings;
}

function readNumbers(reader: ByteReader, start: number, type: 'byte' | 'int16' | 'float', count: number): number[] {
  const numbers: number[] = [];
  for (let i = 0; i < count; i++) {
    if (type === 'byte') numbers.push(reader.uint8(start + i));
    else if (type === 'int16') numbers.push(reader.int16(start + i * 2));
    else numbers.push(reader.float32(start + i * 4));
  }
  return numbers;
}

/** A 16-bit count, stored signed by older writers and unsigned by newer ones. */
export function unsignedWord(value: number): number {
  return value < 0 ? value + 65536 : value;
}
