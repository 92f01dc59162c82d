import { decToIeeeBits } from './dec-float.ts';
import type { C3dFile } from './read-c3d.ts';

/** The points of a file, or a part of them. */
export interface PointData {
  pointCount: number;
  frameCount: number;
  /**
   * Frame-major x, y, z, residual word: index ((frame * pointCount) + point) * 4. Positions in file units, scaled, in
   * the file's axes. The residual word is as stored: negative marks an invalid point, whose position means nothing;
   * else its high byte holds the cameras and its low byte times |scale| is the residual. Do not write: may be a view
   * on the file.
   */
  values: Float32Array;
}

/** Whether the four values at `index` are a measured point: residual word not negative, position finite. */
export function isValidPoint(values: ArrayLike<number>, index: number): boolean {
  // A sum of finite singles is finite in double precision; times 0 it is 0 only then.
  return !(values[index + 3]! < 0) && (values[index]! + values[index + 1]! + values[index + 2]!) * 0 === 0;
}

/**
 * All points of a file: a view on its bytes where it stores Intel floats without analog data, else one decoded array
 * of at most twice the file's size. Typed arrays are taken to be little-endian, as in every browser and on every
 * platform Node.js is built for but s390x and AIX.
 */
export function readPoints(file: C3dFile): PointData {
  const { pointCount, frameCount } = file;
  const view = file.analogPerFrame === 0 ? viewOnFile(file) : null;
  if (view !== null) return { pointCount, frameCount, values: view };
  const values = new Float32Array(frameCount * pointCount * 4);
  createDecoder(file)(0, frameCount, values);
  return { pointCount, frameCount, values };
}

/**
 * Walks through the points in blocks of at most `framesPerBlock` frames. `visit` gets the values of PointData for the
 * frames from `firstFrameIndex` (from 0) on; the array is reused for the next block and must not be kept.
 */
export function forEachPointBlock(
  file: C3dFile,
  framesPerBlock: number,
  visit: (values: Float32Array, firstFrameIndex: number, frameCount: number) => void,
): void {
  walk(file, framesPerBlock, file.analogPerFrame === 0 ? viewOnFile(file) : null, (values, _stride, first, count) => {
    visit(values, first, count);
  });
}

/**
 * As forEachPointBlock, but frames may lie apart: each starts `stride` values after the one before. So Intel floats
 * are read where they lie even with analog values between the frames, which saves a copy of every point.
 */
export function forEachStridedBlock(
  file: C3dFile,
  framesPerBlock: number,
  visit: (values: Float32Array, stride: number, firstFrameIndex: number, frameCount: number) => void,
): void {
  walk(file, framesPerBlock, viewOnFile(file), visit);
}

function walk(
  file: C3dFile,
  framesPerBlock: number,
  view: Float32Array | null,
  visit: (values: Float32Array, stride: number, firstFrameIndex: number, frameCount: number) => void,
): void {
  if (!(framesPerBlock >= 1)) throw new RangeError(`framesPerBlock is ${framesPerBlock}, expected 1 or more.`);
  const { pointCount, frameCount } = file;
  if (frameCount === 0 || pointCount === 0) return;
  const stride = view === null ? pointCount * 4 : file.frameStride / 4;
  const blockFrames = Math.min(Math.floor(framesPerBlock), frameCount);
  const buffer = view === null ? new Float32Array(blockFrames * stride) : view;
  const decode = view === null ? createDecoder(file) : null;
  for (let first = 0; first < frameCount; first += blockFrames) {
    const count = Math.min(blockFrames, frameCount - first);
    decode?.(first, count, buffer);
    const start = decode === null ? first * stride : 0;
    visit(buffer.subarray(start, start + count * stride), stride, first, count);
  }
}

/** The data section as it lies in the file, analog values and all, where it is stored as typed arrays hold floats. */
function viewOnFile(file: C3dFile): Float32Array | null {
  const { bytes, dataOffset, frameCount, frameStride } = file;
  const start = bytes.byteOffset + dataOffset;
  if (file.processor !== 'intel' || file.numberFormat !== 'float' || start % 4 !== 0 || frameCount === 0) return null;
  return new Float32Array(bytes.buffer, start, (frameCount * frameStride) / 4);
}

type Decoder = (firstFrame: number, frameCount: number, target: Float32Array) => void;

function createDecoder(file: C3dFile): Decoder {
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

function createFloatDecoder(file: C3dFile): Decoder {
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

function copyIntel(source: Int32Array, from: number, target: Int32Array, to: number, count: number): void {
  for (let i = 0; i < count; i += 4) {
    target[to + i] = source[from + i]!;
    target[to + i + 1] = source[from + i + 1]!;
    target[to + i + 2] = source[from + i + 2]!;
    target[to + i + 3] = source[from + i + 3]!;
  }
}

function copyMips(source: Int32Array, from: number, target: Int32Array, to: number, count: number): void {
  for (let i = 0; i < count; i++) {
    const word = source[from + i]!;
    target[to + i] = (word << 24) | ((word & 0xff00) << 8) | ((word >>> 8) & 0xff00) | (word >>> 24);
  }
}

function copyDec(source: Int32Array, from: number, target: Int32Array, to: number, count: number): void {
  for (let i = 0; i < count; i++) {
    const stored = source[from + i]!;
    const swapped = (stored << 16) | (stored >>> 16);
    // As decToIeeeBits, written out for the numbers met: a call for each value took three times as long.
    target[to + i] = (swapped & 0x7f800000) > 0x01000000 ? (swapped - 0x01000000) | 0 : decToIeeeBits(stored);
  }
}

function createIntegerDecoder(file: C3dFile): Decoder {
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
