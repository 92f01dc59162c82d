import type { C3dFile } from '../c3d/read-c3d.ts';
import { forEachPointBlock, isValidPoint } from '../c3d/read-points.ts';
import { robustMean } from '../geometry/statistics.ts';

/** Where each marker is in a window of frames; lab axes, mm. Index marker * 3 for positions; NaN where not visible. */
export interface AveragedMarkers {
  readonly means: Float64Array;
  /** Standard deviation of the position (three-dimensional), mm. */
  readonly sdMm: Float64Array;
  /** Share of the frames in which the marker is visible. */
  readonly visible: Float64Array;
  /** Frames at which the marker leaps further than any standing person moves. */
  readonly jumps: Int32Array;
  /** Means over equal parts of the window, to tell how far its values can be trusted. */
  readonly parts: readonly Float64Array[];
}

const mostParts = 8;
/** Nobody who stands moves a marker faster than this, mm per second; nor does noise move one by less than 10 mm. */
const leapMmPerSecond = 1500;
const leastLeapMm = 10;
/** Samples nearer to the median than this are kept whatever their spread. */
const keepWithinMm = 0.5;

/**
 * Robust means over frames `first` to `first + count - 1` (from 0, in the order stored).
 * @param points index of the point that carries each marker; -1 where none does
 * @param millimetres how many mm one file unit is
 */
export function averageWindow(
  file: C3dFile,
  points: ArrayLike<number>,
  first: number,
  count: number,
  millimetres: number,
  rateHz: number,
): AveragedMarkers {
  const markers = points.length;
  const samples = Array.from({ length: markers * 3 }, () => new Float64Array(count));
  const sampleFrames = Array.from({ length: markers }, () => new Int32Array(count));
  const counts = new Int32Array(markers);
  const jumps = new Int32Array(markers);
  const leap = Math.max(leastLeapMm, leapMmPerSecond / rateHz);
  const stride = file.pointCount * 4;

  forEachPointBlock(file, 256, (values, blockFirst, blockCount) => {
    const from = Math.max(first, blockFirst);
    const to = Math.min(first + count, blockFirst + blockCount);
    for (let frame = from; frame < to; frame++) {
      for (let marker = 0; marker < markers; marker++) {
        const point = points[marker]!;
        if (point < 0) continue;
        const index = (frame - blockFirst) * stride + point * 4;
        if (!isValidPoint(values, index)) continue;
        const n = counts[marker]!;
        let step = 0;
        for (let axis = 0; axis < 3; axis++) {
          const sample = samples[marker * 3 + axis]!;
          sample[n] = values[index + axis]! * millimetres;
          if (n > 0) step += (sample[n]! - sample[n - 1]!) ** 2;
        }
        if (n > 0 && sampleFrames[marker]![n - 1] === frame - 1 && step > leap * leap) jumps[marker]! += 1;
        sampleFrames[marker]![n] = frame;
        counts[marker] = n + 1;
      }
    }
  });

  const means = new Float64Array(markers * 3).fill(Number.NaN);
  const sdMm = new Float64Array(markers);
  const visible = new Float64Array(markers);
  const scratch = new Float64Array(count);
  for (let marker = 0; marker < markers; marker++) {
    const n = counts[marker]!;
    visible[marker] = count === 0 ? 0 : n / count;
    if (n === 0) continue;
    let variance = 0;
    for (let axis = 0; axis < 3; axis++) {
      const { mean, sd } = robustMean(samples[marker * 3 + axis]!, n, scratch, keepWithinMm);
      means[marker * 3 + axis] = mean;
      variance += sd * sd;
    }
    sdMm[marker] = Math.sqrt(variance);
  }
  return { means, sdMm, visible, jumps, parts: partMeans(samples, sampleFrames, counts, means, first, count) };
}

/** Means over up to eight parts; a marker that is hidden in a part keeps its mean over the window there. */
function partMeans(
  samples: readonly Float64Array[],
  sampleFrames: readonly Int32Array[],
  counts: Int32Array,
  means: Float64Array,
  first: number,
  count: number,
): Float64Array[] {
  const partCount = Math.min(mostParts, count);
  const parts = Array.from({ length: partCount }, () => Float64Array.from(means));
  if (partCount < 2) return parts;
  const sums = new Float64Array(partCount);
  const seen = new Float64Array(partCount);
  for (let marker = 0; marker < counts.length; marker++) {
    for (let axis = 0; axis < 3; axis++) {
      sums.fill(0);
      seen.fill(0);
      const sample = samples[marker * 3 + axis]!;
      for (let i = 0; i < counts[marker]!; i++) {
        const part = Math.floor(((sampleFrames[marker]![i]! - first) * partCount) / count);
        sums[part]! += sample[i]!;
        seen[part]! += 1;
      }
      parts.forEach((part, index) => {
        if (seen[index]! > 0) part[marker * 3 + axis] = sums[index]! / seen[index]!;
      });
    }
  }
  return parts;
}

/** The same markers with the positions of two of them exchanged, as when their labels had been. */
export function exchangeMarkers(averaged: AveragedMarkers, a: number, b: number): AveragedMarkers {
  const exchange = <T extends Float64Array | Int32Array>(values: T, width: number): T => {
    const copy = values.slice() as T;
    for (let i = 0; i < width; i++) {
      copy[a * width + i] = values[b * width + i]!;
      copy[b * width + i] = values[a * width + i]!;
    }
    return copy;
  };
  return {
    means: exchange(averaged.means, 3),
    sdMm: exchange(averaged.sdMm, 1),
    visible: exchange(averaged.visible, 1),
    jumps: exchange(averaged.jumps, 1),
    parts: averaged.parts.map((part) => exchange(part, 3)),
  };
}
