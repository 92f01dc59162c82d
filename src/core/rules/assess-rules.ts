import type { RuleDefinition } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import { judge } from '../rule-kinds/allowed.ts';
import type { Description } from '../rule-kinds/rule-kind.ts';
import type { Session } from '../session/session.ts';
import type { ExpectedRule } from './expected-rules.ts';
import { averagingError, viewError } from './rule-uncertainty.ts';

/** What became of one rule. Never silent: a rule that could not be judged says why. */
export type RuleOutcome = AssessedRule | NotAssessedRule;

export interface AssessedRule {
  readonly rule: RuleDefinition;
  readonly status: 'pass' | 'borderline' | 'fail' | 'accepted';
  /** Offsets resolved for this trial, for whoever evaluates the rule again. */
  readonly parameters: unknown;
  readonly description: Description;
  /** 1 SD, in the unit of the value: averaging and a direction of view that is not measured. Statuses rest on it. */
  readonly uncertainty: number;
  /** The part of it that comes from averaging. */
  readonly averagingSd: number;
  readonly reason: string;
}

export interface NotAssessedRule {
  readonly rule: RuleDefinition;
  readonly status: 'not-assessed';
  readonly reason: string;
}

export function isAssessed(outcome: RuleOutcome): outcome is AssessedRule {
  return outcome.status !== 'not-assessed';
}

/** Judges every rule on one still body. */
export function assessRules(body: StandingBody, rules: readonly ExpectedRule[], session: Session): RuleOutcome[] {
  return rules.map(({ rule, suspended }) => {
    const reason = suspended ?? obstacle(body, rule);
    return reason === null ? assess(body, rule, session) : { rule, status: 'not-assessed', reason };
  });
}

/** Why a rule cannot be judged on this body; null where it can. */
function obstacle(body: StandingBody, rule: RuleDefinition): string | null {
  const needs = ruleKinds[rule.kind].needs(rule);
  const missing = [...new Set(needs.points)].filter((point) => !body.geometry.has(point));
  if (missing.length > 0) return `not seen or not known: ${missing.join(', ')}`;
  if (needs.stature && body.geometry.lookup.statureMm === null) return 'stature was not measured';
  if (body.restless && rule.spans === 'body') return 'the patient did not stand still';
  return null;
}

function assess(body: StandingBody, rule: RuleDefinition, session: Session): RuleOutcome {
  const kind = ruleKinds[rule.kind];
  const parameters = kind.resolve(rule, body.geometry.lookup);
  const description = kind.describe(body.positions, parameters);
  const fromView = viewError(body, rule, parameters);
  const averagingSd = averagingError(body, rule, parameters);
  const uncertainty = Math.hypot(averagingSd, fromView.error);
  // Nothing could be judged against an uncertainty that is no number: a failure would pass for borderline.
  if (!Number.isFinite(description.value) || !Number.isFinite(uncertainty)) {
    return { rule, status: 'not-assessed', reason: 'the markers lie so that the figure means nothing' };
  }
  const judged = judge(description.value, description.bounds, uncertainty);
  const waived = judged === 'fail' ? acceptance(rule, session) : null;
  if (waived !== null)
    return { rule, status: 'accepted', parameters, description, uncertainty, averagingSd, reason: waived };
  const reason = judged === 'pass' ? '' : fromView.caution;
  return { rule, status: judged, parameters, description, uncertainty, averagingSd, reason };
}

/** The written reason for which a failing rule is waived, or the palpation that settled it. */
function acceptance(rule: RuleDefinition, session: Session): string | null {
  const accepted = session.accepted.find((item) => item.rule === rule.id);
  if (accepted !== undefined) return `accepted by ${accepted.by} on ${accepted.on}: ${accepted.reason}`;
  const confirmed = rule.mayMove.map((label) => session.confirmed.find((item) => item.marker === label));
  if (confirmed.every((item) => item !== undefined)) {
    const { by, on, reason } = confirmed[0]!;
    return `confirmed on the bone by ${by} on ${on}${reason === undefined ? '' : `: ${reason}`}`;
  }
  return null;
}
