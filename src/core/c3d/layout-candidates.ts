import { BLOCK_BYTES } from './byte-reader.ts';
import type { C3dHeader } from './header.ts';
import type { C3dGroup } from './parameters.ts';
import { storedCount, storedLongCount, storedNumber } from './point-group.ts';

type Groups = ReadonlyMap<string, C3dGroup>;

/** One value a file states, and where it states it. */
export interface Stated<T> {
  value: T;
  source: string;
}

/** All that is stated about the data section, each list with the most trusted value first. */
export interface StatedLayout {
  dataOffsets: Stated<number>[];
  formats: Stated<'float' | 'int'>[];
  analogCounts: Stated<number>[];
  pointCounts: Stated<number>[];
  frameCounts: Stated<number>[];
}

/** One combination of stated values, and how it suits the file. Offsets and sizes in bytes. */
export interface Candidate {
  dataOffset: Stated<number>;
  numberFormat: Stated<'float' | 'int'>;
  analogPerFrame: Stated<number>;
  pointCount: Stated<number>;
  frameCount: Stated<number>;
  stride: number;
  /** bytes left over after the last stated frame; negative where the file is too short */
  spareBytes: number;
}

/** A word holds no larger frame count; files with more frames store this and the true count elsewhere. */
export const FRAME_COUNT_LIMIT = 65535;

/**
 * Frame counts a file states, the most trusted first: POINT:LONG_FRAMES (made to override), POINT:FRAMES, the TRIAL
 * fields, the frame numbers of the header. A count at the limit of its word says nothing beside a larger one.
 * Where nothing is stated the count is 0: the file's size cannot tell frames from padding.
 */
export function statedFrameCounts(header: C3dHeader, groups: Groups): Stated<number>[] {
  const start = storedLongCount(groups, 'TRIAL', 'ACTUAL_START_FIELD');
  const end = storedLongCount(groups, 'TRIAL', 'ACTUAL_END_FIELD');
  const stated: [number, string][] = [
    ...optional(storedCount(groups, 'POINT', 'LONG_FRAMES') || null, 'POINT:LONG_FRAMES'),
    ...optional(storedCount(groups, 'POINT', 'FRAMES'), 'POINT:FRAMES'),
    ...optional(start === null || end === null ? null : end - start + 1, 'the TRIAL fields'),
  ];
  const parameters = stated.filter(([count]) => count >= 0);
  const larger = parameters.some(([count]) => count > FRAME_COUNT_LIMIT);
  const usable = parameters.filter(([count]) => !(larger && count === FRAME_COUNT_LIMIT));
  const headerCount = header.lastFrame - header.firstFrame + 1;
  const headerSaysNothing = headerCount < 0 || (usable.length > 0 && header.lastFrame === FRAME_COUNT_LIMIT);
  const all = headerSaysNothing ? usable : [...usable, [headerCount, 'the header'] as [number, string]];
  return all.length === 0 ? [{ value: 0, source: 'neither header nor parameters' }] : distinct(all);
}

/** Point counts: the header first, since its words describe the data section, then POINT:USED. */
export function statedPointCounts(header: C3dHeader, groups: Groups): Stated<number>[] {
  const used = storedCount(groups, 'POINT', 'USED');
  return distinct([[header.pointCount, 'the header'], ...optional(used, 'POINT:USED')]);
}

/** Analog values a frame: the header first, then ANALOG:USED times the samples a frame. */
export function statedAnalogCounts(header: C3dHeader, groups: Groups): Stated<number>[] {
  const used = storedCount(groups, 'ANALOG', 'USED');
  const perFrame = used === null ? null : used * Math.max(1, header.analogSamplesPerFrame);
  return distinct([[header.analogPerFrame, 'the header'], ...optional(perFrame, 'the ANALOG group')]);
}

/** Data starts in bytes: POINT:DATA_START first, then the header; blocks before the third cannot hold data. */
export function statedDataOffsets(header: C3dHeader, groups: Groups): Stated<number>[] {
  const parameter = storedCount(groups, 'POINT', 'DATA_START');
  const stated: [number, string][] = [
    ...optional(parameter, 'POINT:DATA_START'),
    [header.dataStartBlock, 'the header'],
  ];
  return distinct(stated.filter(([block]) => block >= 2).map(([block, source]) => [(block - 1) * BLOCK_BYTES, source]));
}

/** Scales a file states: POINT:SCALE first, then the header; zero and non-numbers are no scale. */
export function statedScales(header: C3dHeader, groups: Groups): Stated<number>[] {
  const parameter = storedNumber(groups, 'POINT', 'SCALE');
  const stated: [number, string][] = [...optional(parameter, 'POINT:SCALE'), [header.scale, 'the header']];
  return distinct(stated.filter(([scale]) => Number.isFinite(scale) && scale !== 0));
}

function optional(value: number | null, source: string): [number, string][] {
  return value === null ? [] : [[value, source]];
}

function distinct<T>(entries: [T, string][]): Stated<T>[] {
  const stated: Stated<T>[] = [];
  for (const [value, source] of entries) {
    if (!stated.some((other) => other.value === value)) stated.push({ value, source });
  }
  return stated;
}
