import { createPointDecoder } from './decode-points.ts';
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
  createPointDecoder(file)(0, frameCount, values);
  return { pointCount, frameCount, values };
}

/** Gets the values of `frameCount` frames from `firstFrameIndex` (from 0) on; the array must not be kept. */
export type BlockVisitor = (values: Float32Array, firstFrameIndex: number, frameCount: number) => void;

/** As BlockVisitor, with frames that each start `stride` values after the one before. */
export type StridedBlockVisitor = (
  values: Float32Array,
  stride: number,
  firstFrameIndex: number,
  frameCount: number,
) => void;

/**
 * Walks through the points in blocks of at most `framesPerBlock` frames. `visit` gets the values of PointData for the
 * frames of a block; the array is reused for the next.
 */
export function forEachPointBlock(file: C3dFile, framesPerBlock: number, visit: BlockVisitor): void {
  createBlockWalker(
    file,
    framesPerBlock,
    'packed',
  )(file.frameCount, (values, _stride, first, count) => {
    visit(values, first, count);
  });
}

/**
 * As forEachPointBlock, but frames may lie apart: so Intel floats are read where they lie even with analog values
 * between the frames, which saves a copy of every point.
 */
export function forEachStridedBlock(file: C3dFile, framesPerBlock: number, visit: StridedBlockVisitor): void {
  createBlockWalker(file, framesPerBlock, 'strided')(file.frameCount, visit);
}

/** Walks over the first `frameCount` frames of the file it was made for. */
export type BlockWalker = (frameCount: number, visit: StridedBlockVisitor) => void;

/**
 * What the walks above share, for walking more than once over bytes that are refilled in between: the view on them and
 * the array for decoded values are made once.
 */
export function createBlockWalker(file: C3dFile, framesPerBlock: number, frames: 'packed' | 'strided'): BlockWalker {
  if (!(framesPerBlock >= 1)) throw new RangeError(`framesPerBlock is ${framesPerBlock}, expected 1 or more.`);
  const { pointCount } = file;
  if (file.frameCount === 0 || pointCount === 0) return () => {};
  const view = frames === 'strided' || file.analogPerFrame === 0 ? viewOnFile(file) : null;
  const stride = view === null ? pointCount * 4 : file.frameStride / 4;
  const blockFrames = Math.min(Math.floor(framesPerBlock), file.frameCount);
  const buffer = view === null ? new Float32Array(blockFrames * stride) : view;
  const decode = view === null ? createPointDecoder(file) : null;
  return (frameCount, visit) => {
    for (let first = 0; first < frameCount; first += blockFrames) {
      const count = Math.min(blockFrames, frameCount - first);
      decode?.(first, count, buffer);
      const start = decode === null ? first * stride : 0;
      visit(buffer.subarray(start, start + count * stride), stride, first, count);
    }
  };
}

/** The data section as it lies in the file, analog values and all, where it is stored as typed arrays hold floats. */
function viewOnFile(file: C3dFile): Float32Array | null {
  const { bytes, dataOffset, frameCount, frameStride } = file;
  const start = bytes.byteOffset + dataOffset;
  if (file.processor !== 'intel' || file.numberFormat !== 'float' || start % 4 !== 0 || frameCount === 0) return null;
  return new Float32Array(bytes.buffer, start, (frameCount * frameStride) / 4);
}
