import type { TrialRow } from '../parts/trial-row.ts';
import type { CaseMix } from './audit-report.ts';

type Running = { -readonly [Key in keyof CaseMix]: CaseMix[Key] } & { ages: Record<keyof CaseMix['ages'], number> };

/** Whom each assessor and site saw. */
export class CaseMixes {
  readonly #groups = new Map<string, Running>();

  add(row: TrialRow): void {
    for (const by of ['assessor', 'site'] as const) {
      const group = row[by];
      if (group === null) continue;
      const key = `${by} ${group}`;
      const running = this.#groups.get(key) ?? begin(by, group);
      this.#groups.set(key, running);
      running.recordings += 1;
      running.ages[ageBand(row.age_years)] += 1;
      if (row.facts.length > 0) running.withFacts += 1;
      if (row.optional_markers.length > 0) running.withOptionalMarkers += 1;
      if (row.problems.some(({ code }) => code === 'not-still')) running.notStill += 1;
    }
  }

  /** @param visitsOf how many visits a group has */
  report(visitsOf: (by: CaseMix['by'], group: string) => number): CaseMix[] {
    return [...this.#groups.values()]
      .sort((a, b) => (a.by === b.by ? (a.group < b.group ? -1 : 1) : a.by < b.by ? -1 : 1))
      .map((running) => ({ ...running, visits: visitsOf(running.by, running.group) }));
  }
}

function begin(by: CaseMix['by'], group: string): Running {
  return {
    by,
    group,
    recordings: 0,
    visits: 0,
    ages: { 'under 13': 0, '13 to 17': 0, '18 to 64': 0, '65 and over': 0, unknown: 0 },
    withFacts: 0,
    withOptionalMarkers: 0,
    notStill: 0,
  };
}

function ageBand(years: number | null): keyof CaseMix['ages'] {
  if (years === null) return 'unknown';
  if (years < 13) return 'under 13';
  if (years < 18) return '13 to 17';
  return years < 65 ? '18 to 64' : '65 and over';
}
