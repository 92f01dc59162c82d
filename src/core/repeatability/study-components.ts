import { mean, sumOfSquares } from './mean-squares.ts';

/** Figures of one quantity: subject, then assessor, then session. Complete: every cell as many sessions. */
export type StudyTable = readonly (readonly (readonly number[])[])[];

/** Where the variance of a quantity comes from, and what error one measurement carries. */
export interface StudyComponents {
  readonly subjects: number;
  readonly assessors: number;
  readonly sessions: number;
  /** Variances; one that came out below nothing is nothing. */
  readonly variance: {
    readonly subject: number;
    readonly assessor: number;
    readonly subjectByAssessor: number;
    readonly session: number;
  };
  /** Standard error of measurement: the same assessor on another day; another assessor on another day. */
  readonly semWithin: number;
  readonly semBetween: number;
  /** Smallest change of one person that is more than that error, 95 %: 1.96 sqrt(2) SEM. */
  readonly mdcWithin: number;
  readonly mdcBetween: number;
  /** Share of the variance that is the person's own: the same assessor, and any assessor. */
  readonly iccWithin: number;
  readonly iccBetween: number;
}

/** 95 % of differences between two measurements lie within this many SEM. */
const detectable = 1.96 * Math.SQRT2;

/**
 * Variance components of a crossed study, subjects and assessors random, sessions nested in both, from the expected mean
 * squares (from memory; with one session this is model 2 of Shrout and Fleiss). With one session the interaction cannot be
 * told from the session, and stands with it.
 */
export function studyComponents(table: StudyTable): StudyComponents {
  const s = table.length;
  const a = table[0]!.length;
  const k = table[0]![0]!.length;
  const cells = table.map((row) => row.map((sessions) => mean(sessions)));
  const subjects = cells.map((row) => mean(row));
  const assessors = cells[0]!.map((_, at) => mean(cells.map((row) => row[at]!)));
  const grand = mean(subjects);
  const msSubject = (a * k * sumOfSquares(subjects, grand)) / (s - 1);
  const msAssessor = (s * k * sumOfSquares(assessors, grand)) / (a - 1);
  const interaction = cells.flatMap((row, i) => row.map((cell, j) => cell - subjects[i]! - assessors[j]! + grand));
  const msBoth = (k * sumOfSquares(interaction, 0)) / ((s - 1) * (a - 1));
  const msSession =
    k > 1
      ? table.reduce(
          (sum, row, i) => sum + row.reduce((inner, sessions, j) => inner + sumOfSquares(sessions, cells[i]![j]!), 0),
          0,
        ) /
        (s * a * (k - 1))
      : msBoth;
  const variance = {
    subject: atLeastNothing((msSubject - msBoth) / (a * k)),
    assessor: atLeastNothing((msAssessor - msBoth) / (s * k)),
    subjectByAssessor: k > 1 ? atLeastNothing((msBoth - msSession) / k) : 0,
    session: msSession,
  };
  const own = variance.subject;
  const byOne = own + variance.assessor + variance.subjectByAssessor;
  const total = byOne + variance.session;
  const semWithin = Math.sqrt(variance.session);
  const semBetween = Math.sqrt(total - own);
  return {
    subjects: s,
    assessors: a,
    sessions: k,
    variance,
    semWithin,
    semBetween,
    mdcWithin: detectable * semWithin,
    mdcBetween: detectable * semBetween,
    iccWithin: total > 0 ? byOne / total : Number.NaN,
    iccBetween: total > 0 ? own / total : Number.NaN,
  };
}

function atLeastNothing(variance: number): number {
  return Math.max(0, variance);
}
