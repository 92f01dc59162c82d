import type { RuleWords } from '../analysis/rule-words.ts';
import { type Interval, mean, meanInterval } from '../analysis/sample-statistics.ts';
import type { GatheredPerson } from './gather-people.ts';

/** A construction rule whose target this laboratory misses on average: told, and not learnt. */
export interface ShiftedTarget {
  readonly rule: string;
  readonly title: string;
  readonly unit: string;
  readonly people: number;
  readonly offset: number;
  readonly interval: Interval;
  readonly limit: number;
  readonly says: string;
}

/** As in the audit: an offset matters from this share of the limit on. */
const mattersFrom = 1 / 3;
const wrongByChance = 0.05;
/** Values further from the middle than this many limits are another fault, not the habit. */
const mostLimits = 4;

/**
 * Construction rules that the laboratory as a whole misses the same way: the mean offset of both sides lies, with its
 * interval over all rules together, beyond a third of what a single trial is allowed.
 * @param rules ids in the order of the residuals
 */
export function shiftedTargets(
  people: readonly GatheredPerson[],
  rules: readonly { readonly id: string; readonly stem: string; readonly isConstruction: boolean }[],
  words: RuleWords,
): ShiftedTarget[] {
  const stems = [...new Set(rules.filter(({ isConstruction }) => isConstruction).map(({ stem }) => stem))];
  const outside = wrongByChance / Math.max(1, stems.length);
  return stems.flatMap((stem): ShiftedTarget[] => {
    const own = rules.flatMap((rule, index) => (rule.stem === stem && rule.isConstruction ? [{ ...rule, index }] : []));
    const limits = people.flatMap((person) => own.flatMap(({ id }) => person.limits.get(id) ?? []));
    if (limits.length === 0) return [];
    const limit = mean(limits);
    const offsets = people.flatMap(({ residuals }) => {
      const sides = own.map(({ index }) => residuals[index]!).filter((value) => Math.abs(value) <= mostLimits * limit);
      return sides.length === 0 ? [] : [mean(sides)];
    });
    const interval = meanInterval(offsets, outside);
    if (interval === null || (interval[0] <= limit * mattersFrom && interval[1] >= -limit * mattersFrom)) return [];
    const offset = mean(offsets);
    const side = own.length > 1 ? 'both' : own[0]!.id === stem ? 'midline' : own[0]!.id.slice(stem.length + 1);
    return [
      {
        rule: stem,
        title: words.title(stem),
        unit: words.unit(stem),
        people: offsets.length,
        offset,
        interval,
        limit,
        says: words.saySided(stem, side, offset),
      },
    ];
  });
}
