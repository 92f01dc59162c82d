import type { MarkerSet } from '../marker-set/marker-set.ts';
import { boundsOf } from '../rule-kinds/allowed.ts';
import { isAssessed, type RuleOutcome } from '../rules/assess-rules.ts';
import { markersOf } from '../rules/rule-markers.ts';
import { sayValue } from '../rules/rule-words.ts';
import type { ReportedRule } from './report.ts';

/** One rule as the report tells it; every rule appears, also one that could not be judged. */
export function reportRule(outcome: RuleOutcome, set: MarkerSet, has: (point: string) => boolean): ReportedRule {
  const { rule } = outcome;
  const common = {
    id: rule.id,
    kind: rule.kind,
    title: rule.title,
    basis: rule.basis,
    essential: rule.essential,
    side: rule.side,
    markers: markersOf(rule, set, has),
    unit: rule.unit,
    status: outcome.status,
    reason: outcome.reason,
    why: rule.why,
    seen: rule.seen,
    source: rule.source,
  };
  if (!isAssessed(outcome)) {
    return {
      ...common,
      value: null,
      ...statedBounds(rule),
      limit: null,
      borderline: null,
      uncertainty: null,
      says: '',
      geometry: null,
    };
  }
  const { value, bounds, geometry } = outcome.description;
  const isRange = 'allowed' in rule && 'range' in rule.allowed;
  const width = (bounds.high - bounds.low) / 2;
  return {
    ...common,
    value,
    ...(isRange ? { range: [openEnd(bounds.low), openEnd(bounds.high)] as const } : { target: bounds.reference }),
    limit: Number.isFinite(width) ? width : null,
    borderline: bounds.borderline,
    uncertainty: Math.hypot(outcome.uncertainty, outcome.description.estimatedAxisSd ?? 0),
    says: sayValue(rule, value, bounds),
    geometry: { ...geometry, points: common.markers },
  };
}

/** What would be allowed, where the file tells it without a body. */
function statedBounds(rule: RuleOutcome['rule']): Pick<ReportedRule, 'target' | 'range'> {
  if (!('allowed' in rule)) return {};
  if ('range' in rule.allowed) return { range: rule.allowed.range };
  return { target: boundsOf(rule.allowed, rule.borderline).reference };
}

export function openEnd(end: number): number | null {
  return Number.isFinite(end) ? end : null;
}
