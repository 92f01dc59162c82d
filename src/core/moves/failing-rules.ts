import type { StandingBody } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import { judge } from '../rule-kinds/allowed.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';

/** Those rules that fail on a body, judged afresh with the uncertainty they had. Waived rules stay waived. */
export function failingOn(body: StandingBody, rules: readonly AssessedRule[]): AssessedRule[] {
  return rules.filter(({ rule, parameters, uncertainty, status }) => {
    if (status === 'accepted') return false;
    const { value, bounds } = ruleKinds[rule.kind].describe(body.positions, parameters);
    return !Number.isFinite(value) || judge(value, bounds, uncertainty) === 'fail';
  });
}
