import type { C3dWarning, C3dWarningCode } from './c3d-warnings.ts';
import type { Candidate, Stated, StatedLayout } from './layout-candidates.ts';
import type { C3dGroup } from './parameters.ts';
import { storedCount } from './point-group.ts';
import { counted, singleText } from './warning-text.ts';

/** One warning for each matter on which header and parameters differ or are silent, saying what was used. */
export function warnAboutChoices(
  chosen: Candidate,
  stated: StatedLayout,
  scales: Stated<number>[],
  usedScale: number,
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
        message: `POINT:SCALE is ${singleText(first.value)}, the header's scale ${singleText(second.value)}; used ${singleText(usedScale)}.`,
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
