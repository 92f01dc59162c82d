import jstat from 'jstat';
import { intraclassCorrelation } from './intraclass-correlation.ts';
import {
  degreesOfFreedom,
  type StudyErrors,
  type StudyMeanSquares,
  type StudySize,
  studyComponents,
} from './study-components.ts';

/** A 95 % interval; null where the study cannot tell it. */
export type Interval = readonly [number, number] | null;

export type StudyIntervals = Readonly<Record<keyof StudyErrors, Interval>>;

/** Draws of each mean square's chi-square over its degrees of freedom; one row for each draw. */
export type PivotalDraws = readonly Omit<StudyMeanSquares, keyof StudySize>[];

const draws = 2000;
const sources = ['subject', 'assessor', 'both', 'session'] as const;

/**
 * Points that fill the four-dimensional cube evenly, as chi-squares: an additive recurrence on powers of the root of
 * x^5 = x + 1, which generalises the golden ratio. No chance is in it, so the same study gives the same interval.
 */
export function pivotalDraws(size: StudySize): PivotalDraws {
  const df = degreesOfFreedom(size);
  const root = 1.1673039782614187;
  return Array.from({ length: draws }, (_, index) =>
    Object.fromEntries(
      sources.map((source, dimension) => {
        const point = (0.5 + (index + 1) / root ** (dimension + 1)) % 1;
        return [source, df[source] > 0 ? jstat.chisquare.inv(point, df[source]) / df[source] : Number.NaN];
      }),
    ),
  ) as unknown as PivotalDraws;
}

/**
 * 95 % intervals of errors and shares: generalised confidence intervals (Weerahandi 1993, J Am Stat Assoc 88:899-905, from
 * memory). Each mean square over its chi-square stands for what it estimates; the errors that follow are sorted. For the
 * error within an assessor this is the exact chi-square interval. Shares of the published models keep the published
 * intervals: Shrout and Fleiss for one assessor, McGraw and Wong for one session.
 */
export function studyIntervals(ms: StudyMeanSquares, pivots: PivotalDraws): StudyIntervals {
  const drawn = pivots.map((pivot) =>
    studyComponents({
      ...ms,
      subject: ms.subject / pivot.subject,
      assessor: ms.assessor / pivot.assessor,
      both: ms.both / pivot.both,
      session: ms.session / pivot.session,
    }),
  );
  const of = (name: keyof StudyErrors): Interval => {
    const values = drawn.map((one) => one[name]).filter((value): value is number => value !== null);
    if (values.length === 0) return null;
    values.sort((a, b) => a - b);
    const at = (share: number): number => values[Math.min(values.length - 1, Math.floor(share * values.length))]!;
    return [at(0.025), at(0.975)];
  };
  return {
    semWithin: of('semWithin'),
    semBetween: of('semBetween'),
    semConsistency: of('semConsistency'),
    iccWithin: published(ms, 1) ?? of('iccWithin'),
    iccBetween: published(ms, 2) ?? of('iccBetween'),
  };
}

function published(ms: StudyMeanSquares, model: 1 | 2): Interval {
  const { subjects, assessors, sessions } = ms;
  const oneWay = model === 1 && assessors === 1 && subjects > 1 && sessions > 1;
  const twoWay = model === 2 && sessions === 1 && subjects > 1 && assessors > 1;
  if (!oneWay && !twoWay) return null;
  const { low, high } = intraclassCorrelation(
    {
      targets: subjects,
      raters: oneWay ? sessions : assessors,
      between: ms.subject,
      within: ms.session,
      judges: ms.assessor,
      error: ms.both,
    },
    model,
  );
  return Number.isFinite(low) && Number.isFinite(high) ? [Math.max(0, low), Math.max(0, Math.min(1, high))] : null;
}
