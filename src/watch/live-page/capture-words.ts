import type { Verdict } from '../../core/report/report.ts';

/** Verdicts as short as a list needs them. */
export const verdictWords: Readonly<Record<Verdict, string>> = {
  ready: 'ready',
  adjust: 'to do',
  'not-assessable': 'cannot be judged',
};
