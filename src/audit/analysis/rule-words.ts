import { sayValue } from '../../core/rules/rule-words.ts';
import type { RuleSummary, SetSummary } from '../parts/set-summary.ts';

/** Words for rules and their offsets, from the marker sets that the parts bring with them. */
export class RuleWords {
  readonly #byId = new Map<string, RuleSummary>();
  readonly #byStem = new Map<string, RuleSummary>();

  constructor(sets: readonly SetSummary[]) {
    for (const rule of sets.flatMap(({ rules }) => rules)) {
      if (!this.#byId.has(rule.id)) this.#byId.set(rule.id, rule);
      if (!this.#byStem.has(rule.stem)) this.#byStem.set(rule.stem, rule);
    }
  }

  rule(id: string): RuleSummary | null {
    return this.#byId.get(id) ?? null;
  }

  title(stem: string): string {
    return this.#byStem.get(stem)?.title ?? stem;
  }

  unit(stem: string): RuleSummary['unit'] {
    return this.#byStem.get(stem)?.unit ?? 'mm';
  }

  /** What an offset of +10 is, so that the signs in tables can be read. */
  saySign(stem: string): string {
    const rule = this.#byStem.get(stem);
    if (rule === undefined) return '';
    const ten = rule.unit === 'ratio' ? 0.1 : 10;
    return `+${ten} ${rule.unit}: ${this.sayOffset(rule.id, ten)}`;
  }

  /** "the tip of the right thigh wand is 12 mm in front of the line from trochanter to epicondyle" */
  sayOffset(id: string, offset: number): string {
    const rule = this.#byId.get(id);
    if (rule === undefined) return '';
    return sayValue(rule, offset, { reference: 0, low: 0, high: 0, borderline: 0 });
  }

  /** The same of a rule on a side; `both` is told of the right, with the left beside it. */
  saySided(stem: string, side: string, offset: number): string {
    if (side === 'midline') return this.sayOffset(stem, offset);
    if (side !== 'both') return this.sayOffset(`${stem}.${side}`, offset);
    return this.sayOffset(`${stem}.right`, offset).replace(/\bright\b/, 'right (and likewise the left)');
  }
}
