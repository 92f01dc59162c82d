import { decToIeeeBits } from './dec-float.ts';
import type { C3dFile } from './read-c3d.ts';

export type PointDecoder = (firstFrame: number, frameCount: number, target: Float32Array) => void;

/** Decodes any run of frames into the start of `target`, packed: see PointData.values. */
export function createPointDecoder(file: C3dFile): PointDecoder {
  return file.numberFormat === 'float' ? createFloatDecoder(file) : createIntegerDecoder(file);
}

/** Bytes of the data section whose start in their buffer is a multiple of `alignment`; copied only where it is not. */
function alignedData(
  file: C3dFile,
  alignment: number,
): { buffer: ArrayBufferLike; byteOffset: number; byteLength: number } {
  const end = file.dataOffset + file.frameCount * file.frameStride;
  const data = file.bytes.subarray(Math.min(file.dataOffset, end), end);
  return data.byteOffset % alignment === 0 ? data : new Uint8Array(data);
}

function createFloatDecoder(file: C3dFile): PointDecoder {
  const valuesPerFrame = file.pointCount * 4;
  const stride = file.frameStride / 4;
  const data = alignedData(file, 4);
  const source = new Int32Array(data.buffer, data.byteOffset, data.byteLength / 4);
  const { processor } = file;
  return (firstFrame, frameCount, target) => {
    const bits = new Int32Array(target.buffer, target.byteOffset, target.length);
    let to = 0;
    for (let frame = firstFrame; frame < firstFrame + frameCount; frame++) {
      const from = frame * stride;
      if (processor === 'dec') copyDec(source, from, bits, to, valuesPerFrame);
      else if (processor === 'mips') copyMips(source, from, bits, to, valuesPerFrame);
      else copyIntel(source, from, bits, to, valuesPerFrame);
      to += valuesPerFrame;
    }
  };
}

// A point in each turn of the loops below: a third faster than a value in each.

function copyIntel(source: Int32Array, from: number, target: Int32Array, to: number, count: number): void {
  for (let i = 0; i < count; i += 4) {
    target[to + i] = source[from + i]!;
    target[to + i + 1] = source[from + i + 1]!;
    target[to + i + 2] = source[from + i + 2]!;
    target[to + i + 3] = source[from + i + 3]!;
  }
}

function copyMips(source: Int32Array, from: number, target: Int32Array, to: number, count: number): void {
  for (let i = 0; i < count; i += 4) {
    target[to + i] = bytesReversed(source[from + i]!);
    target[to + i + 1] = bytesReversed(source[from + i + 1]!);
    target[to + i + 2] = bytesReversed(source[from + i + 2]!);
    target[to + i + 3] = bytesReversed(source[from + i + 3]!);
  }
}

function copyDec(source: Int32Array, from: number, target: Int32Array, to: number, count: number): void {
  for (let i = 0; i < count; i += 4) {
    target[to + i] = fromDec(source[from + i]!);
    target[to + i + 1] = fromDec(source[from + i + 1]!);
    target[to + i + 2] = fromDec(source[from + i + 2]!);
    target[to + i + 3] = fromDec(source[from + i + 3]!);
  }
}

function bytesReversed(word: number): number {
  const halves = (word << 16) | (word >>> 16);
  return ((halves & 0x00ff00ff) << 8) | ((halves >>> 8) & 0x00ff00ff);
}

/** As decToIeeeBits, with the usual case at hand: a call into another module for each value takes far longer. */
function fromDec(stored: number): number {
  const swapped = (stored << 16) | (stored >>> 16);
  return (swapped & 0x7f800000) > 0x01000000 ? (swapped - 0x01000000) | 0 : decToIeeeBits(stored);
}

function createIntegerDecoder(file: C3dFile): PointDecoder {
  const { pointCount, scale } = file;
  const stride = file.frameStride / 2;
  const data = alignedData(file, 2);
  const source = new Int16Array(data.buffer, data.byteOffset, data.byteLength / 2);
  // DEC stores integers as Intel does.
  const scalePoints = file.processor === 'mips' ? scaleSwapped : scaleIntegers;
  return (firstFrame, frameCount, target) => {
    let to = 0;
    for (let frame = firstFrame; frame < firstFrame + frameCount; frame++) {
      scalePoints(source, frame * stride, target, to, pointCount, scale);
      to += pointCount * 4;
    }
  };
}

function scaleIntegers(
  source: Int16Array,
  from: number,
  target: Float32Array,
  to: number,
  points: number,
  scale: number,
) {
  for (let i = 0; i < points * 4; i += 4) {
    target[to + i] = source[from + i]! * scale;
    target[to + i + 1] = source[from + i + 1]! * scale;
    target[to + i + 2] = source[from + i + 2]! * scale;
    target[to + i + 3] = source[from + i + 3]!;
  }
}

function scaleSwapped(
  source: Int16Array,
  from: number,
  target: Float32Array,
  to: number,
  points: number,
  scale: number,
) {
  for (let i = 0; i < points * 4; i += 4) {
    target[to + i] = swapped(source[from + i]!) * scale;
    target[to + i + 1] = swapped(source[from + i + 1]!) * scale;
    target[to + i + 2] = swapped(source[from + i + 2]!) * scale;
    target[to + i + 3] = swapped(source[from + i + 3]!);
  }
}

/** The signed word with its two bytes exchanged. */
function swapped(word: number): number {
  return ((word << 24) | ((word & 0xff00) << 8)) >> 16;
}
