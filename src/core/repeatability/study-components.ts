import { mean, sumOfSquares } from './mean-squares.ts';

/** Figures of one quantity: subject, then assessor, then session. Complete: every cell as many sessions. */
export type StudyTable = readonly (readonly (readonly number[])[])[];

/** How many subjects, assessors, and sessions of each assessor with each subject. */
export interface StudySize {
  readonly subjects: number;
  readonly assessors: number;
  readonly sessions: number;
}

/**
 * Mean squares of a crossed study with sessions nested in subject and assessor. NaN where a study of this size has none:
 * `session` with one session, `assessor` and `both` with one assessor, `subject` and `both` with one subject.
 */
export interface StudyMeanSquares extends StudySize {
  readonly subject: number;
  readonly assessor: number;
  /** Subject by assessor. */
  readonly both: number;
  readonly session: number;
}

/** Degrees of freedom of the mean squares. */
export function degreesOfFreedom({
  subjects: s,
  assessors: a,
  sessions: k,
}: StudySize): Omit<StudyMeanSquares, keyof StudySize> {
  return { subject: s - 1, assessor: a - 1, both: (s - 1) * (a - 1), session: s * a * (k - 1) };
}

export function studyMeanSquares(table: StudyTable): StudyMeanSquares {
  const s = table.length;
  const a = table[0]!.length;
  const k = table[0]![0]!.length;
  const df = degreesOfFreedom({ subjects: s, assessors: a, sessions: k });
  const cells = table.map((row) => row.map(mean));
  const subjects = cells.map(mean);
  const assessors = cells[0]!.map((_, at) => mean(cells.map((row) => row[at]!)));
  const grand = mean(subjects);
  const interaction = cells.flatMap((row, i) => row.map((cell, j) => cell - subjects[i]! - assessors[j]! + grand));
  const within = table.flatMap((row, i) => row.map((sessions, j) => sumOfSquares(sessions, cells[i]![j]!)));
  return {
    subjects: s,
    assessors: a,
    sessions: k,
    subject: ratio(a * k * sumOfSquares(subjects, grand), df.subject),
    assessor: ratio(s * k * sumOfSquares(assessors, grand), df.assessor),
    both: ratio(k * sumOfSquares(interaction, 0), df.both),
    session: ratio(
      within.reduce((sum, one) => sum + one, 0),
      df.session,
    ),
  };
}

/** Where the variance comes from; null where a study of this size cannot tell it. */
export interface VarianceComponents {
  readonly subject: number | null;
  readonly assessor: number | null;
  /** Of an assessor with a subject, beyond what each does in general; with one session it stands in `session`. */
  readonly subjectByAssessor: number | null;
  /** The same assessor with the same subject on another day; with one session, with `subjectByAssessor` in it. */
  readonly session: number;
}

/** What error one measurement carries; null where a study of this size cannot tell it. */
export interface StudyErrors {
  /** Standard error of measurement: the same assessor on another day. */
  readonly semWithin: number | null;
  /** Another assessor on another day; agreement in value. */
  readonly semBetween: number | null;
  /** With one session each: another assessor, what each adds always taken out (Shrout and Fleiss, model 3). */
  readonly semConsistency: number | null;
  /** Share of the variance that is the person's own: for one assessor on any day, and for any assessor. */
  readonly iccWithin: number | null;
  readonly iccBetween: number | null;
}

export interface StudyComponents extends StudyErrors {
  /** A variance that came out below nothing is nothing. */
  readonly variance: VarianceComponents;
  readonly belowNothing: readonly (keyof VarianceComponents)[];
}

/** 95 % of differences between two measurements lie within this many SEM: 1.96 sqrt(2). */
export const detectable = 1.96 * Math.SQRT2;

/**
 * Variance components of a crossed study, subjects and assessors random, sessions nested in both, from the expected mean
 * squares (Searle, Casella and McCulloch 1992, Variance Components; from memory). With one session it is model 2 of Shrout
 * and Fleiss, with one assessor their model 1.
 */
export function studyComponents(ms: StudyMeanSquares): StudyComponents {
  const { subjects: s, assessors: a, sessions: k } = ms;
  const raw: VarianceComponents = {
    subject: s < 2 ? null : (ms.subject - (a > 1 ? ms.both : ms.session)) / (a * k),
    // With one subject, what an assessor does always and with this subject cannot be told apart.
    assessor: a < 2 ? null : (ms.assessor - (s > 1 ? ms.both : ms.session)) / (s * k),
    subjectByAssessor: s < 2 || a < 2 || k < 2 ? null : (ms.both - ms.session) / k,
    session: k > 1 ? ms.session : ms.both,
  };
  const belowNothing = sources.filter((name) => (raw[name] ?? 0) < 0);
  const variance = {
    subject: atLeastNothing(raw.subject),
    assessor: atLeastNothing(raw.assessor),
    subjectByAssessor: atLeastNothing(raw.subjectByAssessor),
    session: raw.session,
  };
  return { variance, belowNothing, ...errorsOf(variance, ms) };
}

const sources = ['subject', 'assessor', 'subjectByAssessor', 'session'] as const;

function atLeastNothing(variance: number | null): number | null {
  return variance === null ? null : Math.max(0, variance);
}

function errorsOf(variance: VarianceComponents, { subjects, assessors, sessions }: StudySize): StudyErrors {
  const own = variance.subject ?? 0;
  const byAssessor = (variance.assessor ?? 0) + (variance.subjectByAssessor ?? 0);
  const total = own + byAssessor + variance.session;
  const tells = { subject: subjects > 1 && total > 0, assessor: assessors > 1, session: sessions > 1 };
  return {
    semWithin: tells.session ? Math.sqrt(variance.session) : null,
    semBetween: tells.assessor ? Math.sqrt(byAssessor + variance.session) : null,
    semConsistency: tells.assessor && !tells.session && subjects > 1 ? Math.sqrt(variance.session) : null,
    iccWithin: tells.subject && tells.session ? (own + byAssessor) / total : null,
    iccBetween: tells.subject && tells.assessor ? own / total : null,
  };
}

function ratio(sum: number, df: number): number {
  return df > 0 ? sum / df : Number.NaN;
}
