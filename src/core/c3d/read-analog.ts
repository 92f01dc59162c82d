import { type AnalogScaling, analogScaling } from './analog-scaling.ts';
import { ByteReader } from './byte-reader.ts';
import type { C3dFile } from './read-c3d.ts';

/** A run of point frames; `first` counts from 0 in the order stored. */
export interface FrameRun {
  readonly first: number;
  readonly count: number;
}

/**
 * One analog channel, calibrated, in the unit of its ANALOG:UNITS: a value for each sample of each frame of the run.
 * Nothing of the points is decoded, nor of other channels. A float that is no number stays one.
 * @param channel from 0
 * @throws {RangeError} where the file has no such channel.
 */
export function readAnalog(file: C3dFile, channel: number, run: FrameRun = wholeFile(file)): Float64Array {
  const { channels, samplesPerFrame } = file.analog;
  if (!(Number.isInteger(channel) && channel >= 0 && channel < channels)) {
    throw new RangeError(`Channel ${channel} asked for; the file has ${channels}, counted from 0.`);
  }
  const { first, count } = within(file, run);
  const value = valueReader(file, analogScaling(file.groups, channels));
  const values = new Float64Array(count * samplesPerFrame);
  let to = 0;
  for (let frame = first; frame < first + count; frame++) {
    for (let sample = 0; sample < samplesPerFrame; sample++) values[to++] = value(frame, sample, channel);
  }
  return values;
}

/** Mean of every analog channel over the samples of a run, calibrated; NaN where a channel has no finite one. */
export function meanAnalog(file: C3dFile, run: FrameRun = wholeFile(file)): Float64Array {
  const { channels, samplesPerFrame } = file.analog;
  const { first, count } = within(file, run);
  const value = valueReader(file, analogScaling(file.groups, channels));
  const sums = new Float64Array(channels);
  const counts = new Uint32Array(channels);
  for (let frame = first; frame < first + count; frame++) {
    for (let sample = 0; sample < samplesPerFrame; sample++) {
      for (let channel = 0; channel < channels; channel++) {
        const read = value(frame, sample, channel);
        if (!Number.isFinite(read)) continue;
        sums[channel]! += read;
        counts[channel]! += 1;
      }
    }
  }
  return sums.map((sum, channel) => sum / counts[channel]!);
}

function wholeFile(file: C3dFile): FrameRun {
  return { first: 0, count: file.frameCount };
}

/** The part of a run that the file holds. */
function within(file: C3dFile, { first, count }: FrameRun): FrameRun {
  const from = Math.min(Math.max(0, Math.floor(first)), file.frameCount);
  const to = Math.min(Math.max(from, Math.floor(first + count)), file.frameCount);
  return { first: from, count: to - from };
}

/** Analog values follow the points of their frame, one value of every channel for each sample. */
function valueReader(
  file: C3dFile,
  { offsets, scales, unsigned }: AnalogScaling,
): (frame: number, sample: number, channel: number) => number {
  const { channels } = file.analog;
  const reader = new ByteReader(file.bytes, file.processor);
  const bytes = file.numberFormat === 'float' ? 4 : 2;
  const start = file.dataOffset + file.pointCount * 4 * bytes;
  const stored =
    file.numberFormat === 'float'
      ? (at: number) => reader.float32(at)
      : unsigned
        ? (at: number) => reader.uint16(at)
        : (at: number) => reader.int16(at);
  return (frame, sample, channel) => {
    const at = start + frame * file.frameStride + (sample * channels + channel) * bytes;
    return (stored(at) - offsets[channel]!) * scales[channel]!;
  };
}
