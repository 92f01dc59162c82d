import { type C3dContents, writeC3d } from '../../../src/core/c3d/write-c3d.ts';

/** Three points in four frames, every coordinate different: 100 * frame + 10 * point + axis, and one point invalid. */
export const plainContents: C3dContents = {
  rateHz: 100,
  units: 'mm',
  labels: ['R_ASIS', 'L_ASIS', 'S1'],
  pointCount: 3,
  frameCount: 4,
  values: plainValues(3, 4),
  scale: 0.5,
};

export function plainValues(pointCount: number, frameCount: number): Float32Array {
  const values = new Float32Array(pointCount * frameCount * 4);
  for (let frame = 0, at = 0; frame < frameCount; frame++) {
    for (let point = 0; point < pointCount; point++, at += 4) {
      const invalid = frame === 1 && point === 2;
      values.set(invalid ? [0, 0, 0, -1] : [0, 1, 2, 1].map((axis) => 100 * frame + 10 * point + axis), at);
      if (!invalid) values[at + 3] = 3;
    }
  }
  return values;
}

export function plainTrial(changes: Partial<C3dContents> = {}): Uint8Array {
  return writeC3d({ ...plainContents, ...changes });
}

/** Byte offset of the record of a parameter or group, found by its name; the nth where several have that name. */
export function recordOffset(bytes: Uint8Array, name: string, nth = 1): number {
  const wanted = [name.length, ...[...name].map((letter) => letter.charCodeAt(0))];
  for (let at = 512, seen = 0; at < bytes.length - wanted.length - 1; at++) {
    const here = [bytes[at], ...bytes.subarray(at + 2, at + 1 + wanted.length)];
    if (wanted.every((byte, i) => byte === here[i]) && ++seen === nth) return at;
  }
  throw new Error(`no record ${name}`);
}

/** Byte offset of the next-offset field of a record. */
export function nextField(bytes: Uint8Array, name: string, nth = 1): number {
  return recordOffset(bytes, name, nth) + 2 + name.length;
}

/** Byte offset of the first value of a parameter. */
export function valuesOffset(bytes: Uint8Array, name: string, nth = 1): number {
  const type = nextField(bytes, name, nth) + 2;
  return type + 2 + bytes[type + 1]!;
}

/** A copy with a parameter hidden under another name of the same length. */
export function withoutParameter(bytes: Uint8Array, name: string, nth = 1): Uint8Array {
  return patched(bytes, recordOffset(bytes, name, nth) + 2, [0x5f]);
}

/** A copy with some bytes replaced. */
export function patched(bytes: Uint8Array, offset: number, replacement: number[]): Uint8Array {
  const copy = bytes.slice();
  copy.set(replacement, offset);
  return copy;
}

/** A copy with a little-endian word replaced. */
export function withWord(bytes: Uint8Array, offset: number, word: number): Uint8Array {
  return patched(bytes, offset, [word & 0xff, (word >> 8) & 0xff]);
}

/** A copy with a little-endian single replaced. */
export function withFloat(bytes: Uint8Array, offset: number, value: number): Uint8Array {
  return patched(bytes, offset, [...new Uint8Array(Float32Array.of(value).buffer)]);
}
