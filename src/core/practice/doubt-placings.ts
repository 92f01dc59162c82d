import { spacingChangeMm } from '../captures/same-body.ts';
import type { Report } from '../report/report.ts';
import { fixed } from '../report/rounding.ts';

/** With the markers left on, distances between them change by less than 0.6 mm (see `isSameBody`). */
const leftOnMm = 1;
/** The highest marker of somebody who stands again is as high again; mm. */
const otherHeightMm = 40;

/** What speaks against several trials being one subject who was marked anew; a sentence each. */
export function doubtPlacings(reports: readonly Report[]): string[] {
  return reports.flatMap((report, at): string[] => {
    const doubts: string[] = [];
    const number = at + 1;
    for (const [before, earlier] of reports.slice(0, at).entries()) {
      const pair = `Placings ${before + 1} and ${number}`;
      const change = spacingChangeMm(earlier, report);
      if (change === null) doubts.push(`${pair} have too few markers in common.`);
      else if (change < leftOnMm) {
        doubts.push(
          `${pair}: most markers sit alike to ${fixed(1, change)} mm, as if they had been left on, or put back on skin marks.`,
        );
      }
      const apart = Math.abs(heightOf(earlier) - heightOf(report));
      if (apart > otherHeightMm) {
        doubts.push(
          `${pair} differ in height by ${fixed(0, apart)} mm: is it the same subject, with the same markers?`,
        );
      }
    }
    return doubts;
  });
}

function heightOf({ markers }: Report): number {
  return Math.max(...Object.values(markers).map(({ mm }) => mm[2]));
}
