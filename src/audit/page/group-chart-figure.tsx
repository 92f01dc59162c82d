import { scaleLinear } from 'd3-scale';
import { fixed } from '../../core/report/rounding.ts';
import type { ChartPoint, GroupChart } from '../analysis/audit-report.ts';

const width = 720;
const height = 260;
const margin = { left: 52, right: 12, top: 12, bottom: 34 };
/** Dots closer than this run into a bar and say nothing. */
const mostDots = 400;

/** One chart: visits in the order of their days, the moving average over them, and the limits of both. */
export function GroupChartFigure({ chart }: { readonly chart: GroupChart }) {
  const { points, lower, upper, centre, limit, unit } = chart;
  const values = points.flatMap(({ value, averageLower, averageUpper }) => [value, averageLower, averageUpper]);
  const reach = limit ?? 0;
  const y = scaleLinear()
    .domain([Math.min(lower, -reach, ...extent(values)), Math.max(upper, reach, ...extent(values))])
    .nice(6)
    .range([height - margin.bottom, margin.top]);
  const x = scaleLinear()
    .domain([0, Math.max(1, points.length - 1)])
    .range([margin.left, width - margin.right]);
  const line = (of: (point: ChartPoint) => number): string => path(points.map((point, i) => [x(i), y(of(point))]));
  const across = { x1: margin.left, x2: width - margin.right };
  const dots = points
    .map((point, index) => ({ point, index }))
    .filter(({ point }) => points.length <= mostDots || point.isOutside);
  return (
    <figure>
      <figcaption>
        <b>{titleOf(chart)}</b> {says(chart)}
      </figcaption>
      <svg
        class="audit-chart"
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={`${titleOf(chart)} ${says(chart)}`}
      >
        {limit === null ? null : (
          <rect
            class="allowed"
            x={margin.left}
            width={width - margin.left - margin.right}
            y={y(limit)}
            height={y(-limit) - y(limit)}
          />
        )}
        {y.ticks(5).map((tick) => (
          <text x={margin.left - 8} y={y(tick) + 4} text-anchor="end">
            {tick}
          </text>
        ))}
        <text x={margin.left} y={height - 2}>{`visits, oldest first; ${unit}`}</text>
        {monthTicks(points).map(({ index, month }) => (
          <text x={x(index)} y={height - 16}>
            {month}
          </text>
        ))}
        <line class="centre" {...across} y1={y(centre)} y2={y(centre)} />
        <line class="control" {...across} y1={y(upper)} y2={y(upper)} />
        <line class="control" {...across} y1={y(lower)} y2={y(lower)} />
        {chart.changes.map(({ before, says: change }) => (
          <line class="change" x1={x(before - 0.5)} x2={x(before - 0.5)} y1={margin.top} y2={height - margin.bottom}>
            <title>{change}</title>
          </line>
        ))}
        {dots.map(({ point, index }) =>
          point.isOutside ? (
            <path class="outside" d={diamond(x(index), y(point.value))} />
          ) : (
            <circle class="point" cx={x(index).toFixed(1)} cy={y(point.value).toFixed(1)} r="2.6" />
          ),
        )}
        <path class="average-limit" d={line(({ averageUpper }) => averageUpper)} />
        <path class="average-limit" d={line(({ averageLower }) => averageLower)} />
        <path class="average" d={line(({ average }) => average)} />
        {runsOutside(points).map((run) => (
          <path class="average-out" d={path(run.map((index) => [x(index), y(points[index]!.average)]))} />
        ))}
      </svg>
    </figure>
  );
}

export function titleOf({ by, group, title, side }: GroupChart): string {
  return `${by === 'assessor' ? 'Assessor' : 'Site'} ${group}: ${title}${side === 'both' ? ', mean of both sides' : side === 'midline' ? '' : `, ${side}`}.`;
}

function says({ points, centre, unit, baseline, leftOut, isProvisional, changes }: GroupChart): string {
  const single = points.filter(({ isOutside }) => isOutside).length;
  const averages = points.filter(({ isAverageOutside }) => isAverageOutside).length;
  const limits = isProvisional ? `provisional limits from ${baseline} visits` : `limits from the first ${baseline}`;
  const changed = changes.length === 0 ? '' : ` Marker set or program changed at ${changes.length} places.`;
  const without = leftOut === 0 ? '' : ` (without ${leftOut} of them that lay outside)`;
  return `${points.length} visits, ${limits}${without}; centre ${fixed(1, centre)} ${unit}; single visits outside: ${single}; moving average outside: ${averages}.${changed}`;
}

/** A chart may have more points than a call takes arguments. */
function extent(values: readonly number[]): [number, number] {
  return [values.reduce((a, b) => Math.min(a, b)), values.reduce((a, b) => Math.max(a, b))];
}

function path(points: readonly (readonly [number, number])[]): string {
  return points.map(([x, y], index) => `${index === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');
}

function diamond(x: number, y: number): string {
  return `M${x.toFixed(1)} ${(y - 5.5).toFixed(1)}l5.5 5.5l-5.5 5.5l-5.5 -5.5z`;
}

/** Runs of points at which the average is outside, each with the point before it, so that a single one shows. */
function runsOutside(points: readonly ChartPoint[]): number[][] {
  const runs: number[][] = [];
  points.forEach(({ isAverageOutside }, index) => {
    if (!isAverageOutside) return;
    if (index > 0 && points[index - 1]!.isAverageOutside) runs.at(-1)!.push(index);
    else runs.push(index > 0 ? [index - 1, index] : [index, index]);
  });
  return runs;
}

/** Where months begin, at most a dozen of them. */
function monthTicks(points: readonly ChartPoint[]): { index: number; month: string }[] {
  const starts = points.flatMap(({ on }, index) =>
    index === 0 || on.slice(0, 7) !== points[index - 1]!.on.slice(0, 7) ? [{ index, month: on.slice(0, 7) }] : [],
  );
  const step = Math.ceil(starts.length / 8);
  return starts.filter((_, index) => index % step === 0);
}
