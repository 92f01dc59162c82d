import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import { judge } from '../rule-kinds/allowed.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import type { Displacement } from './displacement.ts';

/** How far a displacement goes before a rule sees it. */
export interface FailsFrom {
  readonly mm: number;
  readonly rule: string;
}

/** Displacements are followed this far: no marker is believed to be further off. */
export const furthestMm = 60;
const strideMm = 4;
const finestMm = 0.1;

/**
 * The smallest displacement at which a rule fails that does not fail on the body as it stands; null where none does up
 * to 60 mm. Looked for in strides and then halved: a rule that fails for less than a stride and passes again is missed.
 */
export function failsFrom(
  place: (displacement: Displacement, mm: number) => Float64Array,
  displacement: Displacement,
  passing: readonly AssessedRule[],
): FailsFrom | null {
  let seen = 0;
  for (let mm = strideMm; mm <= furthestMm; mm += strideMm) {
    const rule = firstFailing(place(displacement, mm), passing);
    if (rule === null) {
      seen = mm;
      continue;
    }
    let [low, high, first] = [seen, mm, rule];
    while (high - low > finestMm) {
      const middle = (low + high) / 2;
      const failing = firstFailing(place(displacement, middle), passing);
      if (failing === null) low = middle;
      else [high, first] = [middle, failing];
    }
    return { mm: high, rule: first };
  }
  return null;
}

function firstFailing(positions: Float64Array, rules: readonly AssessedRule[]): string | null {
  const failing = rules.find(({ rule, parameters, uncertainty, description: { bounds } }) => {
    const value = ruleKinds[rule.kind].residual(positions, parameters) + bounds.reference;
    return !Number.isFinite(value) || judge(value, bounds, uncertainty) === 'fail';
  });
  return failing?.rule.id ?? null;
}
