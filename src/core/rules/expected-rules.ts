import type { FactShift, MarkerSet, RuleDefinition, VariantDefinition } from '../marker-set/marker-set.ts';
import type { Allowed } from '../rule-kinds/allowed.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import { hasVariant, isRecorded } from '../session/fact-names.ts';
import type { Session } from '../session/session.ts';

/** A rule as it applies to this patient. */
export interface ExpectedRule {
  readonly rule: RuleDefinition;
  /** Why it says nothing about this patient; null where it applies. */
  readonly suspended: string | null;
}

/** Every rule of the set, with what the session records taken into account: suspended, shifted, or with another range. */
export function expectedRules(set: MarkerSet, session: Session): ExpectedRule[] {
  return set.rules.map((rule) => {
    const suspended = suspension(rule, set, session);
    return { rule: suspended === null ? shifted(withVariant(rule, set, session), session) : rule, suspended };
  });
}

/** Rule id as the set wrote it, without its side. */
export function ruleStem(rule: { readonly id: string; readonly side: string }): string {
  return rule.side === 'right' || rule.side === 'left' ? rule.id.slice(0, -rule.side.length - 1) : rule.id;
}

export function sideOf(rule: { readonly side: string }): Side | null {
  return rule.side === 'right' || rule.side === 'left' ? rule.side : null;
}

function suspension(rule: RuleDefinition, set: MarkerSet, session: Session): string | null {
  const fact = rule.suspendedBy.find((name) => isRecorded(session, name, sideOf(rule)));
  if (fact !== undefined) return `recorded: ${fact.replace('.', ' of the ').replaceAll('-', ' ')}`;
  for (const variant of set.variants) {
    const entry = variant.suspends.find((item) => item.rule === ruleStem(rule));
    if (entry === undefined || !hasVariant(session, variant.id, sideOf(rule))) continue;
    if (entry.when === 'one-side' && isOnBothSides(variant, session)) continue;
    if ((entry.unless ?? null) !== null && factOf(entry.unless!, rule, session) !== null) continue;
    return `recorded: ${variant.title}`;
  }
  return null;
}

function isOnBothSides(variant: VariantDefinition, session: Session): boolean {
  return hasVariant(session, variant.id, 'right') && hasVariant(session, variant.id, 'left');
}

function withVariant(rule: RuleDefinition, set: MarkerSet, session: Session): RuleDefinition {
  for (const variant of set.variants) {
    const stem = ruleStem(rule);
    if (!Object.hasOwn(variant.allowed, stem) || !hasVariant(session, variant.id, sideOf(rule))) continue;
    return { ...rule, ...variant.allowed[stem]! } as RuleDefinition;
  }
  return rule;
}

function shifted(rule: RuleDefinition, session: Session): RuleDefinition {
  if (!('allowed' in rule)) return rule;
  let { allowed } = rule;
  for (const shift of rule.shiftedBy) {
    const value = factOf(shift.fact, rule, session);
    if (value !== null) allowed = shiftAllowed(allowed, shift, value);
  }
  return allowed === rule.allowed ? rule : ({ ...rule, allowed } as RuleDefinition);
}

function factOf(fact: FactShift['fact'], rule: RuleDefinition, session: Session): number | null {
  if (fact === 'legLengthDifferenceMm') return session.facts.legLengthDifferenceMm;
  const side = sideOf(rule);
  return side === null ? null : session.facts[fact][side];
}

function shiftAllowed(allowed: Allowed, { factor, widen }: FactShift, value: number): Allowed {
  const by = factor * value;
  const wider = widen * Math.abs(value);
  if ('target' in allowed) return { target: allowed.target + by, limit: allowed.limit + wider };
  const [low, high] = allowed.range;
  return { range: [low === null ? null : low + by - wider, high === null ? null : high + by + wider] };
}
