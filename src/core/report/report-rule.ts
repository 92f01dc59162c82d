import type { MarkerSet, RuleDefinition } from '../marker-set/marker-set.ts';
import { type Bounds, boundsOf } from '../rule-kinds/allowed.ts';
import { isAssessed, type RuleOutcome } from '../rules/assess-rules.ts';
import { markersOf } from '../rules/rule-markers.ts';
import { sayValue } from '../rules/rule-words.ts';
import type { ReportedRule } from './report.ts';

/** One rule as the report tells it; every rule appears, also one that could not be judged. */
export function reportRule(outcome: RuleOutcome, set: MarkerSet, has: (point: string) => boolean): ReportedRule {
  const { rule } = outcome;
  const markers = markersOf(rule, set, has);
  const judged = isAssessed(outcome) ? outcome : null;
  const bounds = judged?.description.bounds;
  const width = bounds === undefined ? Number.NaN : (bounds.high - bounds.low) / 2;
  // There are fifty of these in a report, and putting one together by spreading takes ten times as long.
  const told = {
    id: rule.id,
    kind: rule.kind,
    title: rule.title,
    basis: rule.basis,
    essential: rule.essential,
    side: rule.side,
    markers,
    unit: rule.unit,
    status: outcome.status,
    reason: outcome.reason,
    why: rule.why,
    seen: rule.seen,
    source: rule.source,
    value: judged?.description.value ?? null,
  };
  return Object.assign(told, bounds === undefined ? statedBounds(rule) : boundsAsJudged(rule, bounds), {
    limit: Number.isFinite(width) ? width : null,
    borderline: bounds?.borderline ?? null,
    uncertainty: judged === null ? null : Math.hypot(judged.uncertainty, judged.description.estimatedAxisSd ?? 0),
    // A rule that passes accuses nobody.
    says:
      judged === null || judged.status === 'pass'
        ? ''
        : sayValue(rule, judged.description.value, judged.description.bounds),
    geometry: judged === null ? null : { ...judged.description.geometry, points: markers },
  });
}

function boundsAsJudged(rule: RuleDefinition, bounds: Bounds): Pick<ReportedRule, 'target' | 'range'> {
  const isRange = 'allowed' in rule && 'range' in rule.allowed;
  return isRange ? { range: [openEnd(bounds.low), openEnd(bounds.high)] } : { target: bounds.reference };
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
