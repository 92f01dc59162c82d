import type { MarkerDefinition } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import { judge } from '../rule-kinds/allowed.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import type { Session } from '../session/session.ts';
import { rankSuspects, type Suspect } from './choose-marker.ts';

/** One marker to see to, with the body before and after. */
export interface Correction {
  readonly marker: MarkerDefinition;
  readonly before: StandingBody;
  readonly after: StandingBody;
  /** Rules that failed before it and no longer do when every step is done. */
  readonly resolves: readonly AssessedRule[];
  readonly rivals: readonly Suspect[];
}

export interface CorrectionPlan {
  readonly corrections: readonly Correction[];
  /** The body after all of them. */
  readonly final: StandingBody;
  readonly stillFailing: readonly AssessedRule[];
}

/**
 * Corrections in the order in which a person does them: palpated landmarks first, since markers set by eye are placed
 * on them, then those; each solved in the pose that the ones before it leave behind. After every one all rules are
 * judged again.
 * @param failing rules that a marker has to answer for; those that the stance explains are left out by the caller
 */
export function planCorrections(
  body: StandingBody,
  failing: readonly AssessedRule[],
  assessed: readonly AssessedRule[],
  session: Session,
): CorrectionPlan {
  const confirmed = new Set(session.confirmed.map((item) => item.marker));
  const mayMove = (marker: MarkerDefinition): boolean => marker.purpose !== 'tracks' && !confirmed.has(marker.label);
  const given = new Set(failing.map(({ rule }) => rule.id));
  const drafts: { suspects: Suspect[]; before: StandingBody; target: AssessedRule[] }[] = [];
  const used = new Set<string>();
  let current = body;
  for (const placedBy of ['palpation', 'eye'] as const) {
    for (;;) {
      const open = failingOn(current, assessed).filter(
        ({ rule }) => given.has(rule.id) && leader(body, rule.mayMove) === placedBy,
      );
      const suspects = rankSuspects(current, open, assessed, (marker) => mayMove(marker) && !used.has(marker.label));
      const helping = suspects.filter((suspect) => failingOn(suspect.corrected, open).length < open.length);
      if (helping.length === 0) break;
      drafts.push({ suspects: helping, before: current, target: open });
      used.add(helping[0]!.marker.label);
      current = helping[0]!.corrected;
    }
  }
  const stillFailing = failingOn(current, assessed);
  const unresolved = new Set(stillFailing.map(({ rule }) => rule.id));
  return {
    corrections: drafts.map(({ suspects: [chosen, ...rivals], before, target }) => {
      const leftOver = new Set(failingOn(chosen!.corrected, target).map(({ rule }) => rule.id));
      return {
        marker: chosen!.marker,
        before,
        after: chosen!.corrected,
        resolves: target.filter(({ rule }) => !leftOver.has(rule.id) && !unresolved.has(rule.id)),
        rivals,
      };
    }),
    final: current,
    stillFailing,
  };
}

/** Those rules that fail on a body, judged afresh with the uncertainty they had. Waived rules stay waived. */
export function failingOn(body: StandingBody, rules: readonly AssessedRule[]): AssessedRule[] {
  return rules.filter(({ rule, parameters, uncertainty, status }) => {
    if (status === 'accepted') return false;
    const { value, bounds } = ruleKinds[rule.kind].describe(body.positions, parameters);
    return !Number.isFinite(value) || judge(value, bounds, uncertainty) === 'fail';
  });
}

function leader(body: StandingBody, mayMove: readonly string[]): MarkerDefinition['placedBy'] {
  return body.set.markers.find((marker) => marker.label === mayMove[0])!.placedBy;
}
