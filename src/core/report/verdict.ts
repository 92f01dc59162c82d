import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { SheetFinding } from '../measurements/sheet-finding.ts';
import type { Problem } from '../problems/problem.ts';
import type { RuleOutcome } from '../rules/assess-rules.ts';
import { isAssessed } from '../rules/assess-rules.ts';
import type { Report, Verdict } from './report.ts';

/** Under this share of the rules nothing can be said of the trial as a whole. */
const leastAssessed = 0.6;

/** How much of the set could be checked. @param seen whether a marker is on */
export function coverageOf(
  outcomes: readonly RuleOutcome[],
  set: MarkerSet,
  seen: (marker: string) => boolean,
): Report['coverage'] {
  return {
    rules: outcomes.length,
    assessed: outcomes.filter(isAssessed).length,
    essentialNotAssessed: outcomes
      .filter((outcome) => outcome.rule.essential && !isAssessed(outcome))
      .map(({ rule }) => rule.id),
    unseen: set.unseen.filter(({ markers }) => markers.every(seen)),
  };
}

/** Codes that ask a person to do something before the trial can be used. */
const askForAction: readonly Problem['code'][] = ['labels-swapped', 'marker-missing'];

export function verdictOf(
  coverage: Report['coverage'],
  outcomes: readonly RuleOutcome[],
  problems: readonly Problem[],
  measurements: readonly SheetFinding[],
): Verdict {
  if (coverage.assessed < leastAssessed * coverage.rules || coverage.essentialNotAssessed.length > 0)
    return 'not-assessable';
  if (outcomes.some(({ status }) => status === 'fail')) return 'adjust';
  if (measurements.some(({ status }) => status === 'repeat')) return 'adjust';
  if (problems.some(({ code, severity }) => severity === 'error' && askForAction.includes(code))) return 'adjust';
  return 'ready';
}
