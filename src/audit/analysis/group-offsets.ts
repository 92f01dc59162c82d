import type { GroupOffset } from './audit-report.ts';
import type { RuleWords } from './rule-words.ts';
import { mean, meanInterval, sampleSd, sdInterval } from './sample-statistics.ts';
import type { AuditVisit, ChartSide } from './visits.ts';

/** Visits under which nothing is concluded of a group, and no group is put before another. */
export const leastVisits = 10;

export const chartSides: readonly ChartSide[] = ['right', 'left', 'both', 'midline'];

const groupOf = {
  assessor: ({ assessor }: AuditVisit) => assessor,
  site: ({ site }: AuditVisit) => site,
  month: ({ on }: AuditVisit) => on?.slice(0, 7) ?? null,
} as const;

/** Visits of each group, in the order of the groups' codes: an order that says nothing of anybody. */
export function groupVisits(visits: readonly AuditVisit[], by: keyof typeof groupOf): Map<string, AuditVisit[]> {
  const groups = new Map<string, AuditVisit[]>();
  for (const visit of visits) {
    const group = groupOf[by](visit);
    if (group === null) continue;
    const members = groups.get(group) ?? [];
    members.push(visit);
    groups.set(group, members);
  }
  return new Map([...groups].sort(([a], [b]) => (a < b ? -1 : 1)));
}

export function stemsOf(visits: readonly AuditVisit[]): string[] {
  return [...new Set(visits.flatMap(({ offsets }) => [...offsets.keys()]))].sort();
}

/** Offsets of one rule and side, in the order of the visits. */
export function offsetsOf(visits: readonly AuditVisit[], stem: string, side: ChartSide): number[] {
  return visits.map(({ offsets }) => offsets.get(stem)?.[side]).filter((value) => value !== undefined);
}

export function limitOf(visits: readonly AuditVisit[], stem: string): number | null {
  const limits = visits.map((visit) => visit.limits.get(stem)).filter((limit) => limit !== undefined);
  return limits.length === 0 ? null : mean(limits);
}

/** Mean offset and spread of each construction rule for each assessor, site and month. */
export function groupOffsets(visits: readonly AuditVisit[], words: RuleWords): GroupOffset[] {
  const stems = stemsOf(visits);
  return (['assessor', 'site', 'month'] as const).flatMap((by) =>
    [...groupVisits(visits, by)].flatMap(([group, members]) =>
      stems.flatMap((stem) =>
        chartSides.flatMap((side): GroupOffset[] => {
          const values = offsetsOf(members, stem, side);
          if (values.length === 0) return [];
          return [
            {
              by,
              group,
              rule: stem,
              title: words.title(stem),
              side,
              unit: words.unit(stem),
              visits: values.length,
              isFew: values.length < leastVisits,
              mean: mean(values),
              meanInterval: meanInterval(values),
              sd: values.length < 2 ? null : sampleSd(values),
              sdInterval: sdInterval(values),
              limit: limitOf(members, stem),
            },
          ];
        }),
      ),
    ),
  );
}
