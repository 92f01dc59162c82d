import { sentence } from '../../core/report/sentence.ts';
import { sayValue } from '../../core/rules/rule-words.ts';
import type { CheckRow, TrialRow } from '../parts/trial-row.ts';
import type { Reexamination } from './audit-report.ts';
import type { RuleWords } from './rule-words.ts';

/** Scores above any ratio that a placed marker reaches: what makes a trial unfit comes first. */
const exchanged = 100;
const mostForNotAssessable = 0.5;

/**
 * Trials to look at again, the worst first. Ready ones are not among them, nor files that could not be read, and a
 * failing rule that the session accepts with a reason asks for nothing.
 */
export class Reexaminations {
  readonly #most: number;
  #listed: (Reexamination & { readonly identity: string })[] = [];
  #total = 0;

  constructor(most: number) {
    this.#most = most;
  }

  add(row: TrialRow, words: RuleWords): void {
    if (row.verdict === 'ready' || row.fault !== null) return;
    this.#total += 1;
    const { score, reason } = judge(row, words);
    const { trial, path, subject, assessor, site, visit_on, verdict } = row;
    const identity = row.sha256 ?? row.path ?? '';
    this.#listed.push({
      trial,
      path,
      subject,
      assessor,
      site,
      on: visit_on,
      verdict,
      score,
      reason,
      page: null,
      identity,
    });
    if (this.#listed.length > 4 * this.#most + 100) this.#cut();
  }

  report(): { total: number; listed: Reexamination[] } {
    this.#cut();
    return { total: this.#total, listed: this.#listed.map(({ identity: _, ...shown }) => shown) };
  }

  #cut(): void {
    this.#listed.sort((a, b) => b.score - a.score || (a.identity < b.identity ? -1 : 1));
    this.#listed = this.#listed.slice(0, this.#most);
  }
}

function judge(row: TrialRow, words: RuleWords): { score: number; reason: string } {
  const swapped = row.problems.find(({ code }) => code === 'labels-swapped');
  if (swapped) return { score: exchanged, reason: `Labels are exchanged: ${swapped.markers.join(', ')}.` };
  const failing = row.checks
    .filter(({ status }) => status === 'fail')
    .map((check) => ({ check, ratio: ratioOf(check) }))
    .sort((a, b) => b.ratio - a.ratio || (a.check.rule < b.check.rule ? -1 : 1));
  const [worst] = failing;
  const missing = row.problems.find(({ code }) => code === 'marker-missing');
  if (worst === undefined || row.verdict === 'not-assessable') {
    const codes = [...new Set(row.problems.map(({ code }) => code))].sort().join(', ');
    const reason =
      missing === undefined
        ? `Could not be assessed: ${codes === '' ? 'too few checks could be made' : codes}.`
        : `Markers are missing: ${missing.markers.join(', ')}.`;
    return { score: mostForNotAssessable, reason };
  }
  const more = failing.length > 1 ? ` And ${failing.length - 1} more.` : '';
  return { score: worst.ratio, reason: `${sentence(sayCheck(worst.check, words))}${more}` };
}

/** How many times the limit a construction rule is off; bodies differ, so an anatomical finding counts half. */
function ratioOf({ basis, value, expected, limit }: CheckRow): number {
  const ratio =
    value === null || expected === null || limit === null || limit === 0 ? 1 : Math.abs(value - expected) / limit;
  return basis === 'construction' ? ratio : ratio / 2;
}

function sayCheck({ rule, value, expected, limit, unit }: CheckRow, words: RuleWords): string {
  const known = words.rule(rule);
  if (known === null || value === null) return `${rule} fails`;
  if (expected === null)
    return `${known.title}, ${known.side}: ${Math.round(value * 100) / 100} ${unit === 'ratio' ? '' : unit}`.trim();
  const says = sayValue(known, value, { reference: expected, low: expected, high: expected, borderline: 0 });
  return limit === null ? says : `${says} (allowed ${Math.round(limit)} ${unit})`;
}
