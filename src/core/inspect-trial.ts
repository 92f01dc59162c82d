import { analogTexts } from './c3d/analog-scaling.ts';
import type { C3dWarning } from './c3d/c3d-warnings.ts';
import { meanAnalog } from './c3d/read-analog.ts';
import { type C3dFile, readC3d } from './c3d/read-c3d.ts';
import { forEachStridedBlock } from './c3d/read-points.ts';
import { readPlates } from './force-plates/read-plates.ts';

/** One point over the whole trial, in the file's units and axes. Frames are counted over all frames of the file. */
export interface InspectedMarker {
  /** place in the file, from 0 */
  index: number;
  /** as stored; '' where the file has none */
  label: string;
  validFrames: number;
  /** position in the first valid frame */
  firstValid: [number, number, number] | null;
  /** mean position over the valid frames */
  mean: [number, number, number] | null;
}

/** One analog channel over the whole trial, calibrated as the file says. */
export interface InspectedSignal {
  /** place in the file, from 0 */
  index: number;
  /** as stored; '' where the file has none */
  label: string;
  units: string;
  /** over all samples; null where there is no finite one */
  mean: number | null;
}

/** One force plate as the file describes it. */
export interface InspectedPlate {
  /** as FORCE_PLATFORM lists them, from 1 */
  number: number;
  /** null where the file states none */
  type: number | null;
  /** analog channels as the file counts them, from 1; empty where the plate could not be used */
  channels: number[];
  /** four corners in the file's units and axes; empty likewise */
  corners: [number, number, number][];
  /** why it could not be used, after "because"; '' where it could */
  reason: string;
}

/** What a trial file holds, whatever marker set it was made for. */
export interface Inspection {
  path: string;
  processor: 'intel' | 'dec' | 'mips';
  numberFormat: 'float' | 'int';
  points: number;
  frames: number;
  firstFrame: number;
  rateHz: number | null;
  units: string | null;
  /** as stored; may be more or fewer than the points */
  labels: string[];
  markers: InspectedMarker[];
  analog: { channels: number; rateHz: number | null; samplesPerFrame: number; signals: InspectedSignal[] };
  plates: InspectedPlate[];
  warnings: C3dWarning[];
}

/**
 * Reads a C3D file through once and says what is in it. `path` is only carried along. Labels are as stored: escape
 * them before printing.
 * @throws {C3dError} where nothing can be read.
 */
export function inspectTrial(bytes: Uint8Array, path: string): Inspection {
  const file = readC3d(bytes);
  const sums = sumPoints(file);
  const markers = markersOf(file, sums);
  return {
    path,
    processor: file.processor,
    numberFormat: file.numberFormat,
    points: file.pointCount,
    frames: file.frameCount,
    firstFrame: file.firstFrame,
    rateHz: file.rateHz,
    units: file.units,
    labels: file.labels,
    markers,
    analog: { ...file.analog, signals: signalsOf(file) },
    plates: platesOf(file),
    warnings: [...file.warnings, ...warningsFrom(file, sums)],
  };
}

interface PointSums {
  /** x, y, z summed over the valid frames of each point, in double precision */
  sums: Float64Array;
  /** x, y, z of each point in its first valid frame */
  firsts: Float64Array;
  validFrames: Uint32Array;
  oversizedWords: number;
}

/** About 16,000 values a block: small enough to stay in the processor's cache. */
const VALUES_PER_BLOCK = 1 << 14;

function sumPoints(file: C3dFile): PointSums {
  const { pointCount } = file;
  const result: PointSums = {
    sums: new Float64Array(pointCount * 3),
    firsts: new Float64Array(pointCount * 3),
    validFrames: new Uint32Array(pointCount),
    oversizedWords: 0,
  };
  const framesPerBlock = Math.max(1, Math.floor(VALUES_PER_BLOCK / Math.max(1, pointCount * 4)));
  forEachStridedBlock(file, framesPerBlock, (values, stride, _firstFrameIndex, frameCount) => {
    addBlock(result, values, stride, pointCount, frameCount);
  });
  return result;
}

function addBlock(
  result: PointSums,
  values: Float32Array,
  stride: number,
  pointCount: number,
  frameCount: number,
): void {
  const { sums, firsts, validFrames } = result;
  let oversizedWords = 0;
  for (let frame = 0; frame < frameCount; frame++) {
    let at = frame * stride;
    for (let point = 0, sum = 0; point < pointCount; point++, sum += 3, at += 4) {
      const x = values[at]!;
      const y = values[at + 1]!;
      const z = values[at + 2]!;
      const word = values[at + 3]!;
      if (!(word <= 32767)) oversizedWords++;
      // As isValidPoint, on values already at hand: finite singles have a finite sum in double precision.
      if (word < 0 || (x + y + z) * 0 !== 0) continue;
      if (validFrames[point]!++ === 0) {
        firsts[sum] = x;
        firsts[sum + 1] = y;
        firsts[sum + 2] = z;
      }
      sums[sum]! += x;
      sums[sum + 1]! += y;
      sums[sum + 2]! += z;
    }
  }
  result.oversizedWords += oversizedWords;
}

function markersOf(file: C3dFile, { sums, firsts, validFrames }: PointSums): InspectedMarker[] {
  return Array.from(validFrames, (count, index): InspectedMarker => {
    const at = index * 3;
    return {
      index,
      label: file.labels[index] ?? '',
      validFrames: count,
      firstValid: count === 0 ? null : [firsts[at]!, firsts[at + 1]!, firsts[at + 2]!],
      mean: count === 0 ? null : [sums[at]! / count, sums[at + 1]! / count, sums[at + 2]! / count],
    };
  });
}

function signalsOf(file: C3dFile): InspectedSignal[] {
  const { channels } = file.analog;
  const labels = analogTexts(file.groups, 'LABELS', channels);
  const units = analogTexts(file.groups, 'UNITS', channels);
  return Array.from(meanAnalog(file), (mean, index) => ({
    index,
    label: labels[index]!,
    units: units[index]!,
    mean: Number.isFinite(mean) ? mean : null,
  }));
}

function platesOf(file: C3dFile): InspectedPlate[] {
  const { plates, unusable } = readPlates(file);
  const described = plates.map(
    ({ number, type, channels, corners }): InspectedPlate => ({
      number,
      type,
      channels: channels.map((channel) => channel + 1),
      corners: corners.map((corner): [number, number, number] => [...corner]),
      reason: '',
    }),
  );
  const others = unusable.map((plate): InspectedPlate => ({ ...plate, channels: [], corners: [] }));
  return [...described, ...others].sort((a, b) => a.number - b.number);
}

function warningsFrom(file: C3dFile, { validFrames, oversizedWords }: PointSums): C3dWarning[] {
  const warnings: C3dWarning[] = [];
  if (oversizedWords > 0) {
    warnings.push({
      code: 'residual-words-oversized',
      message: `${oversizedWords} residual words do not fit a 16-bit integer; only their sign was used.`,
    });
  }
  if (file.pointCount > 0 && file.frameCount > 0 && validFrames.every((count) => count === 0)) {
    warnings.push({ code: 'every-point-invalid', message: 'Every point is marked invalid in every frame.' });
  }
  return warnings;
}
