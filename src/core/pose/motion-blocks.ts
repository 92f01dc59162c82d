import type { C3dFile } from '../c3d/read-c3d.ts';
import { forEachPointBlock, isValidPoint } from '../c3d/read-points.ts';

/**
 * Sums over short runs of frames (a quarter of a second), from which the mean and the sway of any window follow
 * without reading the trial again. Positions in the file's units and axes.
 */
export interface MotionBlocks {
  readonly framesPerBlock: number;
  readonly blocks: number;
  readonly markers: number;
  /** Valid frames; index block * markers + marker. */
  readonly counts: Float64Array;
  /** Sums of x, y, z about `origin`; index (block * markers + marker) * 3. */
  readonly sums: Float64Array;
  /** Sums of x^2 + y^2 + z^2 about `origin`. */
  readonly squares: Float64Array;
  /** First valid position of each marker: keeps the sums small, so that the sway does not drown in rounding. */
  readonly origins: Float64Array;
}

const blocksPerSecond = 4;

/** One pass over the trial for the points given, one for each marker; -1 for a marker that is not there. */
export function sumBlocks(file: C3dFile, points: ArrayLike<number>, rateHz: number): MotionBlocks {
  const markers = points.length;
  const framesPerBlock = Math.max(1, Math.round(rateHz / blocksPerSecond));
  const blocks = Math.ceil(file.frameCount / framesPerBlock);
  const counts = new Float64Array(blocks * markers);
  const sums = new Float64Array(blocks * markers * 3);
  const squares = new Float64Array(blocks * markers);
  const origins = new Float64Array(markers * 3).fill(Number.NaN);
  const stride = file.pointCount * 4;

  forEachPointBlock(file, framesPerBlock, (values, first, count) => {
    const block = first / framesPerBlock;
    for (let marker = 0; marker < markers; marker++) {
      const point = points[marker]!;
      if (point < 0) continue;
      const at = marker * 3;
      let originX = origins[at]!;
      let originY = origins[at + 1]!;
      let originZ = origins[at + 2]!;
      let n = 0;
      let sumX = 0;
      let sumY = 0;
      let sumZ = 0;
      let square = 0;
      for (let frame = 0, index = point * 4; frame < count; frame++, index += stride) {
        if (!isValidPoint(values, index)) continue;
        if (Number.isNaN(originX)) {
          originX = origins[at] = values[index]!;
          originY = origins[at + 1] = values[index + 1]!;
          originZ = origins[at + 2] = values[index + 2]!;
        }
        const x = values[index]! - originX;
        const y = values[index + 1]! - originY;
        const z = values[index + 2]! - originZ;
        n++;
        sumX += x;
        sumY += y;
        sumZ += z;
        square += x * x + y * y + z * z;
      }
      const slot = block * markers + marker;
      counts[slot] = n;
      sums[slot * 3] = sumX;
      sums[slot * 3 + 1] = sumY;
      sums[slot * 3 + 2] = sumZ;
      squares[slot] = square;
    }
  });
  return { framesPerBlock, blocks, markers, counts, sums, squares, origins };
}

/** Mean position of each marker over a run of blocks; NaN where it is never visible. */
export function meanOverBlocks(motion: MotionBlocks, firstBlock: number, blockCount: number): Float64Array {
  const { markers, counts, sums, origins } = motion;
  const means = new Float64Array(markers * 3).fill(Number.NaN);
  for (let marker = 0; marker < markers; marker++) {
    let n = 0;
    const sum = [0, 0, 0];
    for (let block = firstBlock; block < firstBlock + blockCount; block++) {
      const slot = block * markers + marker;
      n += counts[slot]!;
      for (let axis = 0; axis < 3; axis++) sum[axis]! += sums[slot * 3 + axis]!;
    }
    if (n === 0) continue;
    for (let axis = 0; axis < 3; axis++) means[marker * 3 + axis] = origins[marker * 3 + axis]! + sum[axis]! / n;
  }
  return means;
}
