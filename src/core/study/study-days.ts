import { median } from '../geometry/statistics.ts';
import type { StudyCapture } from './study-capture.ts';
import type { StudyReport } from './study-report.ts';

/** First and last day, and how far sessions of one assessor with one subject lie apart. */
export function daysOf(
  captures: readonly StudyCapture[],
): Pick<StudyReport['design'], 'firstDay' | 'lastDay' | 'daysApart'> {
  const days = captures.flatMap(({ on }) => (on === null ? [] : [on])).sort();
  const apart: number[] = [];
  captures.forEach(({ subject, assessor, on }, index) => {
    const next = captures.slice(index + 1).find((one) => one.subject === subject && one.assessor === assessor);
    if (on !== null && next !== undefined && next.on !== null) apart.push(Math.abs(dayNumber(next.on) - dayNumber(on)));
  });
  return {
    firstDay: days[0] ?? null,
    lastDay: days.at(-1) ?? null,
    daysApart:
      apart.length === 0
        ? null
        : {
            shortest: Math.min(...apart),
            median: median(Float64Array.from(apart), apart.length),
            longest: Math.max(...apart),
          },
  };
}

/** Days since 1 March of the year 0, of a day `2026-03-02` of the Gregorian calendar; for differences. */
export function dayNumber(day: string): number {
  const [year, month, date] = day.split('-').map(Number) as [number, number, number];
  // Years that begin in March have their leap day at the end.
  const y = month > 2 ? year : year - 1;
  const m = (month + 9) % 12;
  return 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + Math.floor((153 * m + 2) / 5) + date;
}
