import type { Finding, GroupChart } from './audit-report.ts';
import { chartSides, groupVisits, leastVisits, limitOf, offsetsOf, stemsOf } from './group-offsets.ts';
import type { RuleWords } from './rule-words.ts';
import { differenceInterval, type Interval, mean, meanInterval } from './sample-statistics.ts';
import type { AuditVisit, ChartSide } from './visits.ts';

/** An offset matters from this share of the rule's limit on. */
const mattersFrom = 1 / 3;
/** Share of audits in which one of all the comparisons may be wrong by chance (Bonferroni). */
const wrongByChance = 0.05;
/** First and latest visits that a drift is judged by. */
const windowVisits = 20;
/** Visits under which no drift is looked for: the first and the latest shall not overlap. */
export const leastDriftVisits = 2 * windowVisits;

/**
 * What an assessor does time and again. A habit: the mean offset lies, with its interval, beyond a third of the limit.
 * A drift: the moving average has left its limits and the latest visits lie so far from the first. Intervals are wide
 * enough for all comparisons together. Under the least number of visits nobody is named.
 */
export function findHabits(visits: readonly AuditVisit[], charts: readonly GroupChart[], words: RuleWords): Finding[] {
  const assessors = [...groupVisits(visits, 'assessor')].filter(([, members]) => members.length >= leastVisits);
  const stems = stemsOf(visits);
  const outside = wrongByChance / Math.max(1, assessors.length * stems.length * 3 * 2);
  return assessors.flatMap(([assessor, members]) =>
    stems.flatMap((stem) => {
      const limit = limitOf(members, stem);
      if (limit === null) return [];
      const drifts = chartSides.flatMap((side) => {
        const chart = charts.find(
          (one) => one.by === 'assessor' && one.group === assessor && one.rule === stem && one.side === side,
        );
        return chart === undefined ? [] : drift(chart, limit, outside, words);
      });
      // What creeps is no habit of the whole time.
      return firstWide(drifts.length > 0 ? drifts : habits(assessor, members, stem, limit, outside, words));
    }),
  );
}

/** What both sides share is not told again of each. */
function firstWide(findings: readonly Finding[]): readonly Finding[] {
  const shared = findings.filter(({ side }) => side === 'both');
  return shared.length > 0 ? shared : findings;
}

function habits(
  assessor: string,
  members: readonly AuditVisit[],
  stem: string,
  limit: number,
  outside: number,
  words: RuleWords,
): Finding[] {
  const on = (side: ChartSide) => {
    const values = offsetsOf(members, stem, side);
    const interval = values.length < leastVisits ? null : meanInterval(values, outside);
    return { side, visits: values.length, interval, way: interval === null ? 0 : beyond(interval, limit) };
  };
  const [right, left, both, midline] = chartSides.map(on) as [Told, Told, Told, Told];
  const isShared = both.way !== 0 && right.way === both.way && left.way === both.way;
  const told = isShared ? [both] : [right, left, midline].filter(({ way }) => way !== 0);
  return told.map(({ side, visits, interval }): Finding => {
    const offset = (interval![0] + interval![1]) / 2;
    return {
      kind: side === 'both' ? 'both-sides' : 'one-side',
      assessor,
      rule: stem,
      title: words.title(stem),
      side,
      unit: words.unit(stem),
      visits,
      offset,
      interval: interval!,
      limit,
      windows: null,
      since: null,
      versionsChanged: new Set(members.map(({ version }) => version)).size > 1,
      says: `on average over ${visits} visits ${words.saySided(stem, side, offset)}`,
    };
  });
}

interface Told {
  readonly side: ChartSide;
  readonly visits: number;
  readonly interval: Interval | null;
  readonly way: -1 | 0 | 1;
}

function beyond([low, high]: Interval, limit: number): -1 | 0 | 1 {
  if (low > limit * mattersFrom) return 1;
  return high < -limit * mattersFrom ? -1 : 0;
}

function drift(chart: GroupChart, limit: number, outside: number, words: RuleWords): Finding[] {
  const { points, group, rule, title, side, unit, changes } = chart;
  if (points.length < leastDriftVisits) return [];
  const values = points.map(({ value }) => value);
  const [first, latest] = [values.slice(0, windowVisits), values.slice(-windowVisits)];
  const interval = differenceInterval(first, latest, outside);
  const isOutNow = points.at(-1)!.isAverageOutside;
  if (interval === null || beyond(interval, limit) === 0 || !isOutNow) return [];
  const offset = (interval[0] + interval[1]) / 2;
  // The day from which on the average never came back.
  const lastInside = points.findLastIndex(({ isAverageOutside }) => !isAverageOutside);
  const since = points[lastInside + 1]!.on;
  return [
    {
      kind: 'drift',
      assessor: group,
      rule,
      title,
      side,
      unit,
      visits: points.length,
      offset,
      interval,
      limit,
      windows: { visits: windowVisits, first: mean(first), latest: mean(latest) },
      since,
      versionsChanged: changes.length > 0,
      says: `against the first ${windowVisits} visits, in the latest ${windowVisits} ${words.saySided(rule, side, offset)}`,
    },
  ];
}
