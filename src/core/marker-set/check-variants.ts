import { pointerStep } from '../schemas/json-pointer.ts';
import { quoted } from '../schemas/show-value.ts';
import { checkLimits } from './check-limits.ts';
import { refuseSidedFact } from './check-rules.ts';
import { type Draft, refuse } from './draft.ts';
import { mustKnow } from './known-names.ts';

/** @throws MarkerSetError where a variant names what is not there, or says two things about one rule */
export function checkVariants(draft: Draft): void {
  const { written } = draft;
  const rules = new Map(written.rules.map((rule) => [rule.id, rule]));
  const ids = new Set(rules.keys());
  const labels = new Set(written.markers.map(({ label }) => label));
  const withoutSide = 'of this set as it is written, without its side';
  written.variants.forEach((variant, index) => {
    const suspended = new Map<string, boolean>();
    variant.suspends.forEach((item, at) => {
      const pointer = `/variants/${index}/suspends/${at}`;
      mustKnow(draft, `${pointer}/rule`, item.rule, 'rule', ids, withoutSide);
      if (suspended.has(item.rule))
        refuse(draft, `${pointer}/rule`, `found ${quoted(item.rule)} twice among the suspended rules; take one out`);
      suspended.set(item.rule, item.when === 'recorded' && (item.unless ?? null) === null);
      const unless = item.unless ?? null;
      if (unless !== null)
        refuseSidedFact(draft, `${pointer}/unless`, unless, rules.get(item.rule)!.sided === true ? 'right' : 'midline');
    });
    for (const [rule, values] of Object.entries(variant.allowed)) {
      const pointer = `/variants/${index}/allowed${pointerStep(rule)}`;
      mustKnow(draft, pointer, rule, 'rule', ids, withoutSide);
      if ('allowedTurn' in rules.get(rule)!)
        refuse(
          draft,
          pointer,
          `found other values for ${quoted(rule)}, which is judged by "allowedTurn" and keeps its own; suspend it instead`,
        );
      if (suspended.get(rule) === true)
        refuse(
          draft,
          pointer,
          `found other values for ${quoted(rule)}, which the same variant suspends; take one of the two out`,
        );
      checkLimits(draft, pointer, values);
    }
    for (const label of Object.keys(variant.landmarks)) {
      mustKnow(draft, `/variants/${index}/landmarks${pointerStep(label)}`, label, 'marker', labels, withoutSide);
    }
  });
}
