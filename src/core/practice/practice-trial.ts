import type { Report } from '../report/report.ts';
import { type AnswerKey, keyOfReport } from './answer-key.ts';

/** A trial to practise on, with what counts as right. */
export interface PracticeTrial {
  /** What the history calls it: the hash of a stored trial, the seed and number of a made one. Never a file's name. */
  readonly id: string;
  readonly report: Report;
  readonly key: AnswerKey;
}

/** Why a stored trial is not practised on. */
export type LeftOut = 'not-assessable' | 'labels' | 'stance' | 'unclear' | 'session';

/**
 * A stored trial to practise on, or why it is none: an eye on a figure can judge where markers sit, not what labels are
 * exchanged (the figure has them put right) nor a stance that hides the rest.
 */
export function storedTrial(report: Report): PracticeTrial | LeftOut {
  if (report.verdict === 'not-assessable' || report.figure === null) return 'not-assessable';
  const actions = report.moves.map(({ action }) => action);
  if (actions.includes('relabel') || report.problems.some(({ code }) => code === 'marker-missing')) return 'labels';
  if (actions.includes('stand-again')) return 'stance';
  const key = keyOfReport(report);
  // Something is to be adjusted that no marker's way tells.
  if (report.verdict === 'adjust' && key.expected.length === 0) return 'unclear';
  return { id: report.trial.sha256, report, key };
}
