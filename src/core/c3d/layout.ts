import { BLOCK_BYTES } from './byte-reader.ts';
import type { C3dWarning, C3dWarningCode } from './c3d-warnings.ts';
import type { C3dHeader } from './header.ts';
import {
  FRAME_COUNT_LIMIT,
  type Stated,
  statedAnalogCounts,
  statedDataOffsets,
  statedFrameCounts,
  statedPointCounts,
  statedScales,
} from './layout-candidates.ts';
import type { C3dGroup } from './parameters.ts';
import { storedCount } from './point-group.ts';
import { counted, singleText } from './warning-text.ts';

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

interface Candidate {
  dataOffset: Stated<number>;
  numberFormat: Stated<'float' | 'int'>;
  analogPerFrame: Stated<number>;
  pointCount: Stated<number>;
  frameCount: Stated<number>;
  stride: number;
  /** bytes left over after the last stated frame; negative where the file is too short */
  spareBytes: number;
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
  const stated = {
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

  warnAboutChoices(chosen, stated, scales, groups, warnings);
  return layoutOf(chosen, byteLength, scales, warnings);
}

function combinations(
  byteLength: number,
  stated: {
    dataOffsets: Stated<number>[];
    formats: Stated<'float' | 'int'>[];
    analogCounts: Stated<number>[];
    pointCounts: Stated<number>[];
    frameCounts: Stated<number>[];
  },
): Candidate[] {
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
  const magnitude = Math.abs(scales[0]?.value ?? 1);
  return {
    numberFormat: chosen.numberFormat.value,
    scale: chosen.numberFormat.value === 'float' ? -magnitude : magnitude,
    pointCount: chosen.pointCount.value,
    analogPerFrame: chosen.analogPerFrame.value,
    frameCount: Math.min(statedFrames, room),
    dataOffset,
    frameStride: chosen.stride,
    truncated,
  };
}

function warnAboutChoices(
  chosen: Candidate,
  stated: {
    dataOffsets: Stated<number>[];
    analogCounts: Stated<number>[];
    pointCounts: Stated<number>[];
    frameCounts: Stated<number>[];
  },
  scales: Stated<number>[],
  groups: ReadonlyMap<string, C3dGroup>,
  warnings: C3dWarning[],
): void {
  const differ = (code: C3dWarningCode, what: string, all: Stated<unknown>[], used: Stated<unknown>): void => {
    if (all.length < 2) return;
    const list = all.map(({ value, source }) => `${value} (${source})`).join(', ');
    warnings.push({ code, message: `${what} differ: ${list}; used ${used.value} from ${used.source}.` });
  };
  differ('data-start-disagrees', 'Stated data starts in bytes', stated.dataOffsets, chosen.dataOffset);
  differ('point-count-disagrees', 'Stated point counts', stated.pointCounts, chosen.pointCount);
  differ('analog-count-disagrees', 'Stated analog values a frame', stated.analogCounts, chosen.analogPerFrame);
  differ('frame-count-disagrees', 'Stated frame counts', stated.frameCounts, chosen.frameCount);
  const [first, second] = scales;
  if (first !== undefined && second !== undefined) {
    if (first.value > 0 !== second.value > 0) {
      const message = `POINT:SCALE is ${singleText(first.value)}, the header's scale ${singleText(second.value)}: points were read as ${chosen.numberFormat.value}.`;
      warnings.push({ code: 'number-format-disagrees', message });
    }
    if (Math.abs(first.value) !== Math.abs(second.value)) {
      warnings.push({
        code: 'scale-disagrees',
        message: `POINT:SCALE is ${singleText(first.value)}, the header's scale ${singleText(second.value)}; POINT:SCALE was used.`,
      });
    }
  }
  if (first === undefined) {
    warnings.push({ code: 'scale-missing', message: 'Neither POINT:SCALE nor the header states a scale; 1 was used.' });
  } else if (first.source !== 'POINT:SCALE') {
    warnings.push({
      code: 'scale-missing',
      message: `No usable POINT:SCALE; the header's ${singleText(first.value)} was used.`,
    });
  }
  if (stated.dataOffsets[0]?.source !== 'POINT:DATA_START') {
    warnings.push({
      code: 'data-start-missing',
      message: `No usable POINT:DATA_START; byte ${chosen.dataOffset.value} from ${chosen.dataOffset.source} was used.`,
    });
  }
  if (storedCount(groups, 'POINT', 'FRAMES') === null) {
    const { value, source } = chosen.frameCount;
    warnings.push({
      code: 'frame-count-missing',
      message: `No usable POINT:FRAMES; used ${counted(value, 'frame')} from ${source}.`,
    });
  }
}
