import type { MarkedPerson } from '../../core/own-norms/estimate-norms.ts';
import type { RowSource } from '../parts/part-file.ts';
import type { TrialRow } from '../parts/trial-row.ts';

/** Why a recording has no say in a laboratory's norms. */
export type LeftOut = 'other-set' | 'unreadable' | 'not-assessable' | 'no-subject' | 'facts' | 'same-person';

/** One recording of a person, as it is used. */
export interface GatheredPerson extends MarkedPerson {
  readonly visitOn: string | null;
  /** Limits of the rules in this recording, by id. */
  readonly limits: ReadonlyMap<string, number>;
}

export interface GatheredPeople {
  readonly people: readonly GatheredPerson[];
  readonly leftOut: Readonly<Record<LeftOut, number>>;
  readonly firstDay: string | null;
  readonly lastDay: string | null;
  /** Versions of the program that judged them. */
  readonly tools: readonly string[];
}

/**
 * One recording of each person, the latest: several captures of one body are no several bodies. Recordings without a
 * subject code cannot be told apart and are left out; so are people with facts that change what is expected of them.
 * @param rules ids of the norms, in their order
 * @param unitOf unit of a rule; those in mm are scaled to a body of this height
 */
export async function gatherPeople(
  source: RowSource,
  markerSetSha256: string,
  rules: readonly string[],
  unitOf: (rule: string) => string | undefined,
  bodyHeightMm: number,
): Promise<GatheredPeople> {
  const leftOut = {
    'other-set': 0,
    unreadable: 0,
    'not-assessable': 0,
    'no-subject': 0,
    facts: 0,
    'same-person': 0,
  };
  const latest = new Map<string, TrialRow>();
  for await (const row of source.rows()) {
    const reason = whyNot(row, markerSetSha256);
    if (reason !== null) {
      leftOut[reason] += 1;
      continue;
    }
    const before = latest.get(row.subject!);
    if (before !== undefined) leftOut['same-person'] += 1;
    if (before === undefined || isLater(row, before)) latest.set(row.subject!, row);
  }
  const rows = [...latest.values()].sort((a, b) => (a.subject! < b.subject! ? -1 : 1));
  const days = rows.flatMap(({ visit_on }) => visit_on ?? []).sort();
  return {
    people: rows.map((row): GatheredPerson => {
      const size = bodyHeightMm / row.body_height_mm!;
      const checks = new Map(row.checks.map((check) => [check.rule, check]));
      const residuals = Float64Array.from(rules, (rule) => {
        const residual = checks.get(rule)?.residual ?? Number.NaN;
        return unitOf(rule) === 'mm' ? residual * size : residual;
      });
      const limits = new Map(row.checks.flatMap(({ rule, limit }) => (limit === null ? [] : [[rule, limit] as const])));
      return { residuals, assessor: row.assessor, visitOn: row.visit_on, limits };
    }),
    leftOut,
    firstDay: days[0] ?? null,
    lastDay: days.at(-1) ?? null,
    tools: [...new Set(rows.map(({ tool }) => tool))].sort(),
  };
}

function whyNot(row: TrialRow, markerSetSha256: string): LeftOut | null {
  if (row.fault !== null) return 'unreadable';
  if (row.marker_set_sha256 !== markerSetSha256) return 'other-set';
  if (row.verdict === 'not-assessable' || row.body_height_mm === null) return 'not-assessable';
  if (row.subject === null) return 'no-subject';
  return row.facts.length > 0 ? 'facts' : null;
}

/** By day, and on one day by hash: chance, but the same each time. */
function isLater(row: TrialRow, before: TrialRow): boolean {
  const [a, b] = [row.visit_on ?? '', before.visit_on ?? ''];
  return a === b ? (row.sha256 ?? '') > (before.sha256 ?? '') : a > b;
}
