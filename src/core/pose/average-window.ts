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
/** A marker that is seen in less than this share of the frames is taken as not seen: its place there may be a ghost's. */
const leastVisible = 0.1;
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
  // One array each, cut up: small typed arrays of their own cost more to clear away than to fill.
  const allSamples = new Float64Array(markers * 3 * count);
  const allFrames = new Int32Array(markers * count);
  const samples = Array.from({ length: markers * 3 }, (_, i) => allSamples.subarray(i * count, (i + 1) * count));
  const sampleFrames = Array.from({ length: markers }, (_, i) => allFrames.subarray(i * count, (i + 1) * count));
  const counts = new Int32Array(markers);
  const jumps = new Int32Array(markers);
  const leap = Math.max(leastLeapMm, leapMmPerSecond / rateHz);
  const stride = file.pointCount * 4;

  forEachPointBlock(file, 256, (values, blockFirst, blockCount) => {
    const from = Math.max(first, blockFirst);
    const to = Math.min(first + count, blockFirst + blockCount);
    for (let marker = 0; marker < markers && from < to; marker++) {
      const point = points[marker]!;
      if (point < 0) continue;
      const xs = samples[marker * 3]!;
      const ys = samples[marker * 3 + 1]!;
      const zs = samples[marker * 3 + 2]!;
      const frames = sampleFrames[marker]!;
      let n = counts[marker]!;
      let [lastX, lastY, lastZ, lastFrame] =
        n === 0 ? [0, 0, 0, -2] : [xs[n - 1]!, ys[n - 1]!, zs[n - 1]!, frames[n - 1]!];
      let index = (from - blockFirst) * stride + point * 4;
      for (let frame = from; frame < to; frame++, index += stride) {
        if (!isValidPoint(values, index)) continue;
        const x = values[index]! * millimetres;
        const y = values[index + 1]! * millimetres;
        const z = values[index + 2]! * millimetres;
        const step = (x - lastX) ** 2 + (y - lastY) ** 2 + (z - lastZ) ** 2;
        if (step > leap * leap && lastFrame === frame - 1) jumps[marker]! += 1;
        xs[n] = lastX = x;
        ys[n] = lastY = y;
        zs[n] = lastZ = z;
        frames[n++] = lastFrame = frame;
      }
      counts[marker] = n;
    }
  });

  const means = new Float64Array(markers * 3).fill(Number.NaN);
  const sdMm = new Float64Array(markers);
  const visible = new Float64Array(markers);
  const scratch = new Float64Array(count);
  for (let marker = 0; marker < markers; marker++) {
    const n = counts[marker]!;
    visible[marker] = count === 0 ? 0 : n / count;
    if (n < leastVisible * count || n === 0) continue;
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
  for (let marker = 0; marker < counts.length; marker++) {
    const n = counts[marker]!;
    const frames = sampleFrames[marker]!;
    const xs = samples[marker * 3]!;
    const ys = samples[marker * 3 + 1]!;
    const zs = samples[marker * 3 + 2]!;
    for (let part = 0, i = 0; part < partCount; part++) {
      const end = first + Math.ceil(((part + 1) * count) / partCount);
      let x = 0;
      let y = 0;
      let z = 0;
      const start = i;
      for (; i < n && frames[i]! < end; i++) {
        x += xs[i]!;
        y += ys[i]!;
        z += zs[i]!;
      }
      if (i > start) {
        const at = marker * 3;
        parts[part]![at] = x / (i - start);
        parts[part]![at + 1] = y / (i - start);
        parts[part]![at + 2] = z / (i - start);
      }
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
