import type { WeighedMarkers } from '../decision/weigh-markers.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { type AssessedRule, isAssessed, type RuleOutcome } from '../rules/assess-rules.ts';
import { sayValue } from '../rules/rule-words.ts';
import type { Session } from '../session/session.ts';
import type { MoveProposal } from './move.ts';
import { planCorrections } from './plan-corrections.ts';
import { proposeMove } from './propose-move.ts';

/** A finding that stays as it is, because a person accepted it or found the marker on its bone. */
export interface KeptDeviation {
  readonly rules: readonly string[];
  /** What was measured, in words. */
  readonly finding: string;
  /** Who let it stay, when, and why. */
  readonly reason: string;
  /**
   * What would have been asked for it, with what that changes in the data; null where the marker was found on its bone,
   * or no shift of one marker mends the finding.
   */
  readonly step: MoveProposal | null;
}

/**
 * What each accepted finding leaves in the data: the steps that would have been asked for had nobody accepted it, weighed as
 * those are. A marker confirmed on its bone is not moved.
 * @param weigh weighs which markers are off by the rules handed in; null without norms
 */
export function planKept(
  body: StandingBody,
  outcomes: readonly RuleOutcome[],
  session: Session,
  weigh: (assessed: readonly AssessedRule[]) => WeighedMarkers | null,
): KeptDeviation[] {
  const judged = outcomes.filter(isAssessed);
  const kept = judged.filter(({ status }) => status === 'accepted');
  if (kept.length === 0) return [];
  const waived = new Set(session.accepted.map(({ rule }) => rule));
  const asFailing = judged.map(
    (outcome): AssessedRule =>
      outcome.status === 'accepted' && waived.has(outcome.rule.id) ? { ...outcome, status: 'fail' } : outcome,
  );
  const open = asFailing.filter(({ rule, status }) => status === 'fail' && waived.has(rule.id));
  const { corrections } = planCorrections(body, open, asFailing, session, open.length === 0 ? null : weigh(asFailing));
  const told = new Set<string>();
  const withStep = corrections.flatMap((correction): KeptDeviation[] => {
    const { marker, before, after, resolves, either, probability, knownToMm } = correction;
    const step = proposeMove(body.set, session, marker, before, after, resolves, either, probability, knownToMm);
    const own = kept.filter(({ rule }) => step.resolves.includes(rule.id) && !told.has(rule.id));
    for (const { rule } of own) told.add(rule.id);
    return own.length === 0 ? [] : [{ ...describe(own), step }];
  });
  const others = kept.filter(({ rule }) => !told.has(rule.id)).map((one) => ({ ...describe([one]), step: null }));
  return [...withStep, ...others];
}

function describe(kept: readonly AssessedRule[]): Omit<KeptDeviation, 'step'> {
  const { rule, description } = kept[0]!;
  return {
    rules: kept.map((one) => one.rule.id),
    finding: sayValue(rule, description.value, description.bounds),
    reason: [...new Set(kept.map(({ reason }) => reason))].join('; '),
  };
}
