import { BLOCK_BYTES } from './byte-reader.ts';
import type { C3dWarning } from './c3d-warnings.ts';
import type { C3dHeader } from './header.ts';
import {
  type Candidate,
  FRAME_COUNT_LIMIT,
  type Stated,
  type StatedLayout,
  statedAnalogCounts,
  statedDataOffsets,
  statedFrameCounts,
  statedPointCounts,
  statedScales,
} from './layout-candidates.ts';
import { warnAboutChoices } from './layout-warnings.ts';
import type { C3dGroup } from './parameters.ts';
import { counted } from './warning-text.ts';

/** Where the points lie in the file. Offsets and strides in bytes. */
export interface DataLayout {
  numberFormat: 'float' | 'int';
  /** negative for floats, positive for integers, never 0 */
  scale: number;
  pointCount: number;
  analogPerFrame: number;
  frameCount: number;
  dataOffset: number;
  frameStride: number;
  /** the file ends before the frames it states */
  truncated: boolean;
}

/**
 * Decides between what header and parameters state about the data section, where they differ.
 *
 * Every combination of the stated values is tried in order of trust (see layout-candidates.ts). The first that ends
 * within the last block of the file counts; failing that the most trusted one, if the file is long enough for it;
 * failing that the first the file is long enough for and mostly filled by; failing that the most trusted one again,
 * read as far as the file goes. Nothing is allocated: the frame count returned always fits.
 */
export function decideLayout(
  byteLength: number,
  header: C3dHeader,
  groups: ReadonlyMap<string, C3dGroup>,
  parametersEnd: number,
  warnings: C3dWarning[],
): DataLayout {
  const scales = statedScales(header, groups);
  const formats: Stated<'float' | 'int'>[] = scales.map(({ value, source }) => ({
    value: value < 0 ? 'float' : 'int',
    source,
  }));
  if (formats.length === 0)
    formats.push({ value: 'int', source: 'assumption' }, { value: 'float', source: 'assumption' });
  const stated: StatedLayout = {
    dataOffsets: statedDataOffsets(header, groups),
    formats,
    analogCounts: statedAnalogCounts(header, groups),
    pointCounts: statedPointCounts(header, groups),
    frameCounts: statedFrameCounts(header, groups),
  };
  // A guessed start is believed only where nothing states one inside the file and the data then fill the file.
  const guessed = { value: parametersEnd, source: 'the end of the parameter section' };
  const noneInFile = stated.dataOffsets.every(({ value }) => value >= byteLength);
  const trusted = combinations(
    byteLength,
    stated.dataOffsets.length > 0 ? stated : { ...stated, dataOffsets: [guessed] },
  );
  const fallback = noneInFile ? combinations(byteLength, { ...stated, dataOffsets: [guessed] }) : [];
  const fits = ({ spareBytes }: Candidate) => spareBytes >= 0;
  const fills = (candidate: Candidate) =>
    fits(candidate) && candidate.spareBytes < BLOCK_BYTES && candidate.frameCount.value > 0;
  const mostlyFills = (candidate: Candidate) =>
    fits(candidate) && candidate.spareBytes <= candidate.frameCount.value * candidate.stride;
  const first = trusted[0]!;
  const chosen =
    trusted.find(fills) ?? fallback.find(fills) ?? (fits(first) ? first : (trusted.find(mostlyFills) ?? first));

  const layout = layoutOf(chosen, byteLength, scales, warnings);
  warnAboutChoices(chosen, stated, scales, layout.scale, groups, warnings);
  return layout;
}

function combinations(byteLength: number, stated: StatedLayout): Candidate[] {
  const all: Candidate[] = [];
  for (const dataOffset of stated.dataOffsets)
    for (const numberFormat of stated.formats)
      for (const analogPerFrame of stated.analogCounts)
        for (const pointCount of stated.pointCounts)
          for (const frameCount of stated.frameCounts) {
            const stride = (pointCount.value * 4 + analogPerFrame.value) * (numberFormat.value === 'float' ? 4 : 2);
            const spareBytes = byteLength - dataOffset.value - frameCount.value * stride;
            all.push({ dataOffset, numberFormat, analogPerFrame, pointCount, frameCount, stride, spareBytes });
          }
  return all;
}

function layoutOf(chosen: Candidate, byteLength: number, scales: Stated<number>[], warnings: C3dWarning[]): DataLayout {
  const dataOffset = chosen.dataOffset.value;
  const statedFrames = chosen.frameCount.value;
  const room = chosen.stride === 0 ? 0 : Math.max(0, Math.floor((byteLength - dataOffset) / chosen.stride));
  const truncated = chosen.stride > 0 && room < statedFrames;
  if (truncated) {
    warnings.push({
      code: 'data-truncated',
      message: `The file states ${counted(statedFrames, 'frame')} from byte ${dataOffset} and ends after ${room}; those were read.`,
    });
  }
  if (chosen.pointCount.value === 0) warnings.push({ code: 'no-points', message: 'The file stores no points.' });
  if (
    statedFrames === FRAME_COUNT_LIMIT &&
    room > statedFrames &&
    chosen.spareBytes >= Math.max(BLOCK_BYTES, chosen.stride)
  ) {
    warnings.push({
      code: 'frame-count-at-limit',
      message: `The frame count is ${FRAME_COUNT_LIMIT}, all a word can hold, and the file has room for ${room} frames.`,
    });
  }
  return {
    numberFormat: chosen.numberFormat.value,
    scale: scaleFor(chosen.numberFormat.value, scales),
    pointCount: chosen.pointCount.value,
    analogPerFrame: chosen.analogPerFrame.value,
    frameCount: Math.min(statedFrames, room),
    dataOffset,
    frameStride: chosen.stride,
    truncated,
  };
}

/** The first scale whose sign says this format, failing that the first; 1 where there is none. */
function scaleFor(numberFormat: 'float' | 'int', scales: Stated<number>[]): number {
  const ofFormat = scales.find(({ value }) => value < 0 === (numberFormat === 'float'));
  const magnitude = Math.abs((ofFormat ?? scales[0])?.value ?? 1);
  return numberFormat === 'float' ? -magnitude : magnitude;
}
