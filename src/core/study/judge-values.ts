import { type LimitsOfAgreement, limitsOfAgreement } from '../repeatability/limits-of-agreement.ts';
import { mean } from '../repeatability/mean-squares.ts';
import {
  detectable,
  type StudyErrors,
  type StudySize,
  studyComponents,
  studyMeanSquares,
  type VarianceComponents,
} from '../repeatability/study-components.ts';
import { type Interval, type PivotalDraws, pivotalDraws, studyIntervals } from '../repeatability/study-intervals.ts';
import { type BalancedPart, tableOf } from './balanced-part.ts';
import type { Placing } from './study-capture.ts';

/** A figure with its 95 % interval. */
export interface Estimate {
  readonly value: number;
  readonly interval: Interval;
}

/** Two readings of the same, and who took them. */
export interface ReadingPair {
  readonly subject: string;
  /** Within: who took both; between: null. */
  readonly assessor: string | null;
  readonly readings: readonly [number, number];
}

/** Pairs of readings and, from six pairs on, their limits of agreement. */
export interface Agreement {
  /** The two that are compared: sessions of one assessor, or assessors. */
  readonly of: readonly [string, string];
  readonly pairs: readonly ReadingPair[];
  readonly limits: LimitsOfAgreement | null;
}

/** How well one quantity repeats; in its own unit, null where the study cannot tell it. */
export interface Repeatability {
  readonly size: StudySize;
  readonly variance: VarianceComponents;
  readonly belowNothing: readonly (keyof VarianceComponents)[];
  readonly semWithin: Estimate | null;
  readonly semBetween: Estimate | null;
  readonly semConsistency: Estimate | null;
  readonly mdcWithin: Estimate | null;
  readonly mdcBetween: Estimate | null;
  readonly iccWithin: Estimate | null;
  readonly iccBetween: Estimate | null;
  /** Mean of each assessor less the mean of all. */
  readonly offsets: readonly { readonly assessor: string; readonly by: number }[];
  /** The capture that lies furthest from the mean of its subject. */
  readonly furthest: Placing & { readonly by: number };
  /** First and second session of every assessor with every subject. */
  readonly within: Agreement | null;
  /** The two assessors who differ most on average, their first sessions. */
  readonly between: Agreement | null;
}

/** Fewer pairs give no limits worth drawing. */
const fewestPairs = 6;

/** Intervals are read off the same draws for every quantity of a size. */
export class Judge {
  private readonly draws = new Map<string, PivotalDraws>();

  judge(captures: readonly Placing[], part: BalancedPart, values: readonly (number | null)[]): Repeatability {
    const table = tableOf(part, values);
    const ms = studyMeanSquares(table);
    const { variance, belowNothing, ...errors } = studyComponents(ms);
    const intervals = studyIntervals(ms, this.drawsFor(part.size));
    const estimate = (name: keyof StudyErrors, factor = 1): Estimate | null => {
      const value = errors[name];
      const interval = intervals[name];
      if (value === null) return null;
      return { value: factor * value, interval: interval && [factor * interval[0], factor * interval[1]] };
    };
    const all = mean(table.flat(2));
    const offsets = part.assessors.map((assessor, at) => ({
      assessor,
      by: mean(table.flatMap((row) => row[at]!)) - all,
    }));
    return {
      size: part.size,
      variance,
      belowNothing,
      semWithin: estimate('semWithin'),
      semBetween: estimate('semBetween'),
      semConsistency: estimate('semConsistency'),
      mdcWithin: estimate('semWithin', detectable),
      mdcBetween: estimate('semBetween', detectable),
      iccWithin: estimate('iccWithin'),
      iccBetween: estimate('iccBetween'),
      offsets: part.assessors.length > 1 ? offsets : [],
      furthest: furthestOf(captures, part, values),
      within: withinAssessors(captures, part, values),
      between: betweenAssessors(part, values, offsets),
    };
  }

  private drawsFor(size: StudySize): PivotalDraws {
    const key = `${size.subjects} ${size.assessors} ${size.sessions}`;
    const known = this.draws.get(key) ?? pivotalDraws(size);
    this.draws.set(key, known);
    return known;
  }
}

function furthestOf(
  captures: readonly Placing[],
  part: BalancedPart,
  values: readonly (number | null)[],
): Repeatability['furthest'] {
  const off = part.captures.flatMap((row) => {
    const middle = mean(row.flat().map((index) => values[index]!));
    return row.flat().map((index) => ({ index, by: values[index]! - middle }));
  });
  const { index, by } = off.reduce((most, one) => (Math.abs(one.by) > Math.abs(most.by) ? one : most));
  const { subject, assessor, session } = captures[index]!;
  return { subject, assessor, session, by };
}

function withinAssessors(
  captures: readonly Placing[],
  { captures: cells, size, subjects, assessors }: BalancedPart,
  values: readonly (number | null)[],
): Agreement | null {
  if (size.sessions < 2) return null;
  const pairs = cells.flatMap((row, s) =>
    row.map(
      ([first, second], a): ReadingPair => ({
        subject: subjects[s]!,
        assessor: assessors[a]!,
        readings: [values[first!]!, values[second!]!],
      }),
    ),
  );
  const [first, second] = cells[0]![0]!;
  return agreementOf([captures[first!]!.session, captures[second!]!.session], pairs);
}

function betweenAssessors(
  { captures: cells, subjects, assessors }: BalancedPart,
  values: readonly (number | null)[],
  offsets: Repeatability['offsets'],
): Agreement | null {
  if (assessors.length < 2) return null;
  const byOffset = offsets.map(({ by }, at) => ({ by, at })).sort((a, b) => a.by - b.by);
  const [one, other] = [byOffset[0]!.at, byOffset.at(-1)!.at].sort((a, b) => a - b) as [number, number];
  const pairs = cells.map(
    (row, s): ReadingPair => ({
      subject: subjects[s]!,
      assessor: null,
      readings: [values[row[one]![0]!]!, values[row[other]![0]!]!],
    }),
  );
  return agreementOf([assessors[one]!, assessors[other]!], pairs);
}

function agreementOf(of: Agreement['of'], pairs: readonly ReadingPair[]): Agreement {
  const limits = pairs.length < fewestPairs ? null : limitsOfAgreement(pairs.map(({ readings }) => readings));
  return { of, pairs, limits };
}
