import type { ReadingAgainstMarkers } from '../decision/doubt-readings.ts';
import type { NotCompared } from '../sheet-against-trial/sheet-comparison.ts';
import type { ReportedComparisons } from './report.ts';

/** The sheet beside the trial as reports tell it; null where nothing was to be compared. */
export function reportComparisons(
  compared: readonly ReadingAgainstMarkers[],
  notCompared: readonly NotCompared[],
): ReportedComparisons | null {
  if (compared.length + notCompared.length === 0) return null;
  return {
    compared: compared.map(({ reading: { measure, side, mm }, title, markers, foretoldMm, sdMm, agrees }) => ({
      measure,
      side,
      title,
      readMm: mm,
      foretoldMm,
      sdMm,
      markers,
      agrees,
    })),
    notCompared,
  };
}
