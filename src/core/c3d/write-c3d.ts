import { floatParameter, labelParameters, textParameter, wordParameter } from './build-parameter.ts';
import { BLOCK_BYTES, type C3dProcessor } from './byte-reader.ts';
import { ByteWriter } from './byte-writer.ts';
import type { C3dParameter } from './parameter.ts';
import type { C3dGroup } from './parameters.ts';
import { writeData } from './write-data.ts';
import { writeParameters } from './write-parameters.ts';

/** Analog channels to write, in stored units: the scales written with them are 1 and the offsets 0. */
export interface C3dAnalogContents {
  labels: readonly string[];
  samplesPerFrame: number;
  /** frame after frame, sample after sample, one value of every channel */
  values: ArrayLike<number>;
}

/** What to write. Positions in `units`, in the file's axes. */
export interface C3dContents {
  /** default intel */
  processor?: C3dProcessor;
  /** default float */
  numberFormat?: 'float' | 'int';
  /** POINT:RATE and the header's rate; null leaves the parameter out and the header 0 */
  rateHz: number | null;
  /** null leaves POINT:UNITS out */
  units: string | null;
  /** default 1 */
  firstFrame?: number;
  labels: readonly string[];
  pointCount: number;
  frameCount: number;
  /** layout of PointData.values: frame-major x, y, z, residual word (negative: invalid point) */
  values: Float32Array | Float64Array;
  /** size of one integer step in units, its sign ignored; default: largest coordinate / 32000 (C3D user guide) */
  scale?: number;
  screen?: { x: string; y: string };
  /** more groups; parameters of POINT, ANALOG and TRIAL join, or replace, those written for the data */
  groups?: Iterable<C3dGroup>;
  analog?: C3dAnalogContents;
}

/**
 * A C3D file with these contents; the same contents give the same bytes. Parameters from block 2, data right after.
 * More than 255 labels go on in LABELS2, LABELS3; more frames than a word can count go to POINT:LONG_FRAMES and the
 * TRIAL fields. Integer and DEC files cannot hold a position that is not finite: it is written as an invalid point.
 * @throws {RangeError} where sizes contradict each other or the format cannot hold them.
 */
export function writeC3d(contents: C3dContents): Uint8Array {
  const { processor = 'intel', numberFormat = 'float', analog } = contents;
  checkSizes(contents);
  const magnitude = Math.abs(contents.scale ?? defaultScale(contents.values));
  const scale = Math.fround(numberFormat === 'float' ? -magnitude : magnitude);
  const groups = mergeGroups(
    [pointGroup(contents, scale), ...analogGroup(contents), ...trialGroup(contents)],
    contents,
  );
  const parameters = writeParameters(processor, groups, (blocks) => 2 + blocks);
  const header = writeHeader(contents, scale, 2 + parameters.byteLength / BLOCK_BYTES);
  const valuesPerFrame =
    contents.pointCount * 4 + (analog === undefined ? 0 : analog.labels.length * analog.samplesPerFrame);
  const dataBytes = contents.frameCount * valuesPerFrame * (numberFormat === 'float' ? 4 : 2);
  const dataOffset = header.byteLength + parameters.byteLength;
  const bytes = new Uint8Array(dataOffset + Math.ceil(dataBytes / BLOCK_BYTES) * BLOCK_BYTES);
  bytes.set(header);
  bytes.set(parameters, header.byteLength);
  writeData(bytes, dataOffset, { ...contents, processor, numberFormat, scale });
  return bytes;
}

function checkSizes({ pointCount, frameCount, values, firstFrame = 1, analog, scale }: C3dContents): void {
  if (!isCount(pointCount, 65535)) throw new RangeError(`${pointCount} points given; the format holds 0 to 65535.`);
  if (!isCount(frameCount, 0xffffffff)) throw new RangeError(`${frameCount} frames given, expected a count.`);
  if (!isCount(firstFrame + frameCount, 0xffffffff) || !isCount(firstFrame, 0xffffffff)) {
    throw new RangeError(`The first frame is ${firstFrame}, expected a frame number.`);
  }
  if (values.length !== pointCount * frameCount * 4) {
    const expected = `${pointCount} points in ${frameCount} frames need ${pointCount * frameCount * 4}`;
    throw new RangeError(`${values.length} values given; ${expected}.`);
  }
  if (scale !== undefined && !(Number.isFinite(scale) && Math.fround(scale) !== 0)) {
    throw new RangeError(`The scale is ${scale}, expected a number other than 0.`);
  }
  if (analog === undefined) return;
  const perFrame = analog.labels.length * analog.samplesPerFrame;
  if (!isCount(analog.samplesPerFrame, 65535) || !isCount(perFrame, 65535)) {
    throw new RangeError(`${perFrame} analog values a frame given; the format holds 0 to 65535.`);
  }
  if (analog.values.length !== perFrame * frameCount) {
    throw new RangeError(`${analog.values.length} analog values given; ${perFrame * frameCount} expected.`);
  }
}

function isCount(value: number, largest: number): boolean {
  return Number.isInteger(value) && value >= 0 && value <= largest;
}

/** Largest coordinate / 32000 (C3D user guide), so that every coordinate fits a 16-bit integer. */
function defaultScale(values: Float32Array | Float64Array): number {
  let largest = 0;
  for (let at = 0; at < values.length; at += 4) {
    if (values[at + 3]! < 0) continue;
    for (let axis = 0; axis < 3; axis++) {
      const magnitude = Math.abs(values[at + axis]!);
      if (magnitude > largest && magnitude < Number.POSITIVE_INFINITY) largest = magnitude;
    }
  }
  return Math.fround(largest / 32000) || 0.1;
}

function group(name: string, parameters: C3dParameter[]): C3dGroup {
  return { name, description: '', parameters: new Map(parameters.map((parameter) => [parameter.name, parameter])) };
}

function pointGroup({ rateHz, units, labels, pointCount, frameCount, screen }: C3dContents, scale: number): C3dGroup {
  return group('POINT', [
    wordParameter('USED', pointCount),
    wordParameter('FRAMES', Math.min(frameCount, 65535)),
    wordParameter('DATA_START', 0),
    floatParameter('SCALE', scale),
    ...(rateHz === null ? [] : [floatParameter('RATE', rateHz)]),
    ...(units === null ? [] : [textParameter('UNITS', units)]),
    ...labelParameters('LABELS', labels),
    ...(screen === undefined ? [] : [textParameter('X_SCREEN', screen.x), textParameter('Y_SCREEN', screen.y)]),
    ...(frameCount > 65535 ? [floatParameter('LONG_FRAMES', frameCount)] : []),
  ]);
}

function analogGroup({ analog, rateHz }: C3dContents): C3dGroup[] {
  const channels = analog?.labels.length ?? 0;
  if (analog === undefined || channels === 0) return [group('ANALOG', [wordParameter('USED', 0)])];
  return [
    group('ANALOG', [
      wordParameter('USED', channels),
      ...(rateHz === null ? [] : [floatParameter('RATE', rateHz * analog.samplesPerFrame)]),
      floatParameter('GEN_SCALE', 1),
      ...(channels > 255
        ? []
        : [perChannel('SCALE', 'float', 1, channels), perChannel('OFFSET', 'int16', 0, channels)]),
      ...labelParameters('LABELS', analog.labels),
    ]),
  ];
}

function perChannel(name: string, type: 'float' | 'int16', value: number, channels: number): C3dParameter {
  return { name, description: '', type, dimensions: [channels], values: new Array<number>(channels).fill(value) };
}

/** First and last frame as 32-bit counts, where the header's words cannot hold them. */
function trialGroup({ firstFrame = 1, frameCount }: C3dContents): C3dGroup[] {
  const lastFrame = firstFrame + frameCount - 1;
  if (lastFrame <= 65535) return [];
  const longCount = (name: string, value: number) => wordParameter(name, value % 65536, Math.floor(value / 65536));
  return [group('TRIAL', [longCount('ACTUAL_START_FIELD', firstFrame), longCount('ACTUAL_END_FIELD', lastFrame)])];
}

function mergeGroups(own: C3dGroup[], { groups = [] }: C3dContents): C3dGroup[] {
  const merged = new Map(own.map((entry) => [entry.name, entry]));
  for (const { name, description, parameters } of groups) {
    const known = merged.get(name);
    merged.set(name, { name, description, parameters: new Map([...(known?.parameters ?? []), ...parameters]) });
  }
  return [...merged.values()];
}

/** Marks the header's event section as having labels of four letters. */
const EVENT_KEY = 12345;

function writeHeader(contents: C3dContents, scale: number, dataStartBlock: number): Uint8Array {
  const { processor = 'intel', pointCount, frameCount, firstFrame = 1, rateHz, analog } = contents;
  const writer = new ByteWriter(processor);
  writer.byte(2);
  writer.byte(0x50);
  writer.word(pointCount);
  writer.word(analog === undefined ? 0 : analog.labels.length * analog.samplesPerFrame);
  writer.word(Math.min(firstFrame, 65535));
  writer.word(Math.min(Math.max(0, firstFrame + frameCount - 1), 65535));
  writer.word(0);
  writer.float(scale);
  writer.word(dataStartBlock);
  writer.word(analog?.labels.length ? analog.samplesPerFrame : 0);
  writer.float(rateHz ?? 0);
  writer.zeros((149 - 12) * 2);
  writer.word(EVENT_KEY);
  writer.padTo(BLOCK_BYTES);
  return writer.bytes;
}
