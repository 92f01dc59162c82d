import type { RuleStatus } from '../../core/report/report.ts';
import type { CheckRow } from '../parts/trial-row.ts';
import type { RuleTally } from './audit-report.ts';
import { ExactMoments } from './exact-moments.ts';
import type { RuleWords } from './rule-words.ts';

interface Running {
  readonly first: CheckRow;
  readonly counts: Record<RuleStatus, number>;
  failsAbove: number;
  failsBelow: number;
  readonly moments: ExactMoments;
  /** Offsets of the fails above and below. */
  readonly above: ExactMoments;
  readonly below: ExactMoments;
}

/** How often each rule passed, was borderline or failed, and which way. */
export class RuleTallies {
  readonly #rules = new Map<string, Running>();

  add(checks: readonly CheckRow[]): void {
    for (const check of checks) {
      const running = this.#rules.get(check.rule) ?? begin(check);
      this.#rules.set(check.rule, running);
      running.counts[check.status] += 1;
      if (check.value === null || check.status === 'not-assessed') continue;
      const offset = check.value - (check.expected ?? 0);
      running.moments.add(offset);
      if (check.status !== 'fail') continue;
      (offset >= 0 ? running.above : running.below).add(offset);
      running[offset >= 0 ? 'failsAbove' : 'failsBelow'] += 1;
    }
  }

  /** Those that fail most often first. */
  report(words: RuleWords): RuleTally[] {
    return [...this.#rules]
      .map(([rule, running]) => tallyOf(rule, running, words))
      .sort((a, b) => (b.failShare ?? -1) - (a.failShare ?? -1) || (a.rule < b.rule ? -1 : 1));
  }
}

function begin(first: CheckRow): Running {
  return {
    first,
    counts: { pass: 0, borderline: 0, fail: 0, accepted: 0, 'not-assessed': 0 },
    failsAbove: 0,
    failsBelow: 0,
    moments: new ExactMoments(),
    above: new ExactMoments(),
    below: new ExactMoments(),
  };
}

function tallyOf(rule: string, running: Running, words: RuleWords): RuleTally {
  const { first, counts, failsAbove, failsBelow, moments, above, below } = running;
  const assessed = counts.pass + counts.borderline + counts.fail + counts.accepted;
  const usual = failsAbove > failsBelow ? above.mean : failsBelow > failsAbove ? below.mean : null;
  return {
    rule,
    title: words.rule(rule)?.title ?? rule,
    side: first.side,
    basis: first.basis,
    unit: first.unit,
    counts: { ...counts },
    failShare: assessed === 0 ? null : counts.fail / assessed,
    failsAbove,
    failsBelow,
    mean: moments.mean,
    sd: moments.sd,
    says: first.expected === null || usual === null ? '' : words.sayOffset(rule, usual),
  };
}
