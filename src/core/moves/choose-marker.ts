import type { MarkerDefinition } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import { solveDisplacement, width } from './solve-displacement.ts';

/** A marker that could be the one that is off, and the body with it where the rules want it. */
export interface Suspect {
  readonly marker: MarkerDefinition;
  readonly corrected: StandingBody;
  /** What remains over all rules after the correction: less is better. */
  readonly remains: number;
}

/** One rule counts at most this much (three times its width, squared), so that no single one decides everything. */
const mostPerRule = 9;

/**
 * Which marker to doubt for a set of failing rules: among those that may move, the one whose correction leaves the
 * whole body most ordinary; of equals, the one that the rules name first. Rivals come after it, best first.
 *
 * This weighs residuals only. It knows no prior odds and gives no probability.
 */
export function rankSuspects(
  body: StandingBody,
  failing: readonly AssessedRule[],
  assessed: readonly AssessedRule[],
  mayMove: (marker: MarkerDefinition) => boolean,
): Suspect[] {
  const labels = [...new Set(failing.flatMap(({ rule }) => rule.mayMove))];
  const suspects: Suspect[] = [];
  for (const label of labels) {
    const marker = body.set.markers.find((candidate) => candidate.label === label)!;
    if (!mayMove(marker) || !body.geometry.has(label)) continue;
    const own = failing.filter(({ rule }) => rule.mayMove.includes(label));
    const corrected = solveDisplacement(body, marker, own);
    if (corrected === null) continue;
    suspects.push({ marker, corrected, remains: remainder(corrected, assessed) });
  }
  return suspects.sort((a, b) => (a.remains < b.remains * 0.95 ? -1 : b.remains < a.remains * 0.95 ? 1 : 0));
}

/** Squared residuals over all assessed rules, each in units of its allowed width. */
function remainder(body: StandingBody, assessed: readonly AssessedRule[]): number {
  let sum = 0;
  for (const { rule, parameters, description } of assessed) {
    const residual = ruleKinds[rule.kind].residual(body.positions, parameters);
    const { low, high } = description.bounds;
    if (!Number.isFinite(high - low)) continue;
    sum += Math.min(mostPerRule, (residual / width(description.bounds)) ** 2);
  }
  return sum;
}
