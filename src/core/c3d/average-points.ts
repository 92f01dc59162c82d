import type { C3dFile } from './read-c3d.ts';
import { forEachStridedBlock, isValidPoint } from './read-points.ts';

/** Where each point is on average, in the file's units and axes. */
export interface PointAverages {
  /** x, y, z of each point over its valid frames, at index point * 3; NaN where there is none */
  means: Float64Array;
  validFrames: Uint32Array;
}

/** Values in a block that stays in the nearest cache of the processor while it is read. */
const CACHED_VALUES = 1 << 12;

/** Frames to read at once where they are added up: see PointSums. */
export function framesInCache(pointCount: number): number {
  return Math.max(1, Math.floor(CACHED_VALUES / Math.max(1, pointCount * 4)));
}

/** Sums of positions over the valid frames (see isValidPoint), in double precision, block by block. */
export class PointSums {
  readonly #sums: Float64Array;
  readonly #validFrames: Uint32Array;

  constructor(pointCount: number) {
    this.#sums = new Float64Array(pointCount * 3);
    this.#validFrames = new Uint32Array(pointCount);
  }

  /** Adds a block of forEachStridedBlock; fastest for blocks of framesInCache. */
  add(values: Float32Array, stride: number, frameCount: number): void {
    const bits = new Int32Array(values.buffer, values.byteOffset, values.length);
    const points = this.#validFrames.length;
    for (let point = 0; point < points; point++) this.#addPoint(values, bits, stride, point, frameCount);
  }

  averages(): PointAverages {
    const means = this.#sums.map((sum, index) => {
      const count = this.#validFrames[Math.floor(index / 3)]!;
      return count === 0 ? Number.NaN : sum / count;
    });
    return { means, validFrames: this.#validFrames.slice() };
  }

  /**
   * Adds first and looks afterwards: a value that is not finite shows in the sum, a negative residual word in the sign
   * bit of all words together. Only a point that shows one of them is looked at frame by frame.
   */
  #addPoint(values: Float32Array, bits: Int32Array, stride: number, point: number, frameCount: number): void {
    let x = 0;
    let y = 0;
    let z = 0;
    let words = 0;
    for (let frame = 0, at = point * 4; frame < frameCount; frame++, at += stride) {
      x += values[at]!;
      y += values[at + 1]!;
      z += values[at + 2]!;
      words |= bits[at + 3]!;
    }
    if (words < 0 || (x + y + z) * 0 !== 0) {
      this.#addValid(values, stride, point, frameCount);
      return;
    }
    this.#sums[point * 3]! += x;
    this.#sums[point * 3 + 1]! += y;
    this.#sums[point * 3 + 2]! += z;
    this.#validFrames[point]! += frameCount;
  }

  #addValid(values: Float32Array, stride: number, point: number, frameCount: number): void {
    for (let frame = 0, at = point * 4; frame < frameCount; frame++, at += stride) {
      if (!isValidPoint(values, at)) continue;
      this.#sums[point * 3]! += values[at]!;
      this.#sums[point * 3 + 1]! += values[at + 1]!;
      this.#sums[point * 3 + 2]! += values[at + 2]!;
      this.#validFrames[point]! += 1;
    }
  }
}

/** Mean position of every point of a file over its valid frames. */
export function averagePoints(file: C3dFile): PointAverages {
  const sums = new PointSums(file.pointCount);
  forEachStridedBlock(file, framesInCache(file.pointCount), (values, stride, _first, count) => {
    sums.add(values, stride, count);
  });
  return sums.averages();
}
