import type { RuleDefinition } from '../core/marker-set/marker-set.ts';
import type { LoadedMarkerSet } from '../core/marker-set/parse-marker-set.ts';
import type { Allowed } from '../core/rule-kinds/allowed.ts';

/** How wide limits are, as a share of the laboratory's own; 1 leaves them. */
export interface LimitShares {
  readonly all: number;
  /** By id of a rule; counts in place of `all`. */
  readonly rules: Readonly<Record<string, number>>;
}

export const labsOwn: LimitShares = { all: 1, rules: {} };

export function areLabsOwn({ all, rules }: LimitShares): boolean {
  return all === 1 && Object.values(rules).every((share) => share === 1);
}

/** The marker set with other limits, for learning what they do: what is checked with it is no record of a patient. */
export function withLimits(set: LoadedMarkerSet, { all, rules }: LimitShares): LoadedMarkerSet {
  return {
    ...set,
    rules: set.rules.map((rule) => widened(rule, Object.hasOwn(rules, rule.id) ? rules[rule.id]! : all)),
  };
}

function widened(rule: RuleDefinition, share: number): RuleDefinition {
  if (share === 1) return rule;
  // The band below the limit never grows over what is allowed.
  const borderline = rule.borderline * Math.min(1, share);
  if (!('allowed' in rule)) {
    const { targetDeg, limitDeg } = rule.allowedTurn;
    return { ...rule, borderline, allowedTurn: { targetDeg, limitDeg: limitDeg * share } };
  }
  return { ...rule, borderline, allowed: scaled(rule.allowed, share, rule.borderline) };
}

/** An open range has no width to scale: its one end moves by the usual three borderline bands. */
const bandsInLimit = 3;

function scaled(allowed: Allowed, share: number, borderline: number): Allowed {
  if ('target' in allowed) return { target: allowed.target, limit: allowed.limit * share };
  const [low, high] = allowed.range;
  if (low !== null && high !== null) {
    const [middle, half] = [(low + high) / 2, ((high - low) / 2) * share];
    return { range: [middle - half, middle + half] };
  }
  const by = (share - 1) * bandsInLimit * borderline;
  return { range: [low === null ? null : low - by, high === null ? null : high + by] };
}
