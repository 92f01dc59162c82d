import type { ChartPoint, GroupChart } from './audit-report.ts';
import { ewma, settledChart } from './control-charts.ts';
import { chartSides, groupVisits, leastVisits, limitOf, stemsOf } from './group-offsets.ts';
import type { RuleWords } from './rule-words.ts';
import type { AuditVisit } from './visits.ts';

/** First visits that centre and limits come from; with fewer visits than these they are provisional. */
export const baselineVisits = 20;
/** Weight of the newest visit in the moving average (common practice, 0.05 to 0.3). */
export const lambda = 0.2;

/** Charts of each assessor and site, rule and side over the visits that have a day; none for few visits. */
export function groupCharts(visits: readonly AuditVisit[], words: RuleWords): GroupChart[] {
  return [...chartsBy('assessor', visits, words), ...chartsBy('site', visits, words)];
}

function chartsBy(by: GroupChart['by'], visits: readonly AuditVisit[], words: RuleWords): GroupChart[] {
  const dated = visits.filter(({ on }) => on !== null);
  return [...groupVisits(dated, by)].flatMap(([group, members]) =>
    stemsOf(members).flatMap((stem) =>
      chartSides.flatMap((side): GroupChart[] => {
        const charted = members.filter((visit) => visit.offsets.get(stem)?.[side] !== undefined);
        if (charted.length < leastVisits) return [];
        const values = charted.map((visit) => visit.offsets.get(stem)![side]!);
        const baseline = Math.min(baselineVisits, values.length);
        const { centre, meanRange, sd, lower, upper, rangeUpper, leftOut } = settledChart(values.slice(0, baseline));
        const averages = ewma(values, centre, sd, lambda);
        return [
          {
            by,
            group,
            rule: stem,
            title: words.title(stem),
            side,
            unit: words.unit(stem),
            baseline,
            leftOut,
            isProvisional: values.length < baselineVisits,
            centre,
            meanRange,
            lower,
            upper,
            rangeUpper,
            lambda,
            limit: limitOf(charted, stem),
            points: values.map((value, index): ChartPoint => {
              const average = averages[index]!;
              return {
                on: charted[index]!.on!,
                trial: charted[index]!.trial,
                value,
                average: average.value,
                averageLower: average.lower,
                averageUpper: average.upper,
                isOutside: value < lower || value > upper,
                isAverageOutside: average.value < average.lower || average.value > average.upper,
              };
            }),
            changes: changesIn(charted),
          },
        ];
      }),
    ),
  );
}

function changesIn(visits: readonly AuditVisit[]): GroupChart['changes'] {
  return visits.flatMap(({ version }, index) =>
    index > 0 && version !== visits[index - 1]!.version ? [{ before: index, says: `from here: ${version}` }] : [],
  );
}
