import { scaleLinear } from 'd3-scale';
import { fixed } from '../../core/report/rounding.ts';
import type { Agreement } from '../../core/study/judge-values.ts';

interface AgreementPlotProps {
  readonly title: string;
  /** What the two are: "session ", or nothing for codes of assessors. */
  readonly each: string;
  readonly unit: string;
  readonly agreement: Agreement & { readonly limits: NonNullable<Agreement['limits']> };
}

const width = 560;
const height = 300;
const margin = { left: 56, right: 16, top: 12, bottom: 42 };

/**
 * Differences against means, with the mean difference and the limits of agreement and their 95 % intervals (Bland and
 * Altman 1986, Lancet i:307-310).
 */
export function AgreementPlot({ title, each, unit, agreement: { of, pairs, limits } }: AgreementPlotProps) {
  const points = pairs.map(({ readings: [a, b], subject, assessor }) => ({
    middle: (a + b) / 2,
    difference: a - b,
    says: `${subject}${assessor === null ? '' : ` by ${assessor}`}: ${fixed(1, a - b)} ${unit}`,
  }));
  const x = scaleLinear()
    .domain(extentOf(points.map(({ middle }) => middle)))
    .nice()
    .range([margin.left, width - margin.right]);
  const y = scaleLinear()
    .domain(extentOf([0, ...points.map(({ difference }) => difference), ...limits.lowInterval, ...limits.highInterval]))
    .nice()
    .range([height - margin.bottom, margin.top]);
  const lines = [
    { at: limits.high, interval: limits.highInterval, kind: 'limit' },
    { at: limits.meanDifference, interval: limits.meanInterval, kind: 'bias' },
    { at: limits.low, interval: limits.lowInterval, kind: 'limit' },
  ] as const;
  const said = `${each === '' ? '' : 'Session '}${of[0]} less ${each}${of[1]}: mean difference ${fixed(1, limits.meanDifference)} ${unit}, limits of agreement ${fixed(1, limits.low)} to ${fixed(1, limits.high)} ${unit}, ${limits.pairs} pairs.`;
  return (
    <figure>
      <figcaption>
        <b>{title}</b> {said}
      </figcaption>
      <svg class="study-plot" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={`${title} ${said}`}>
        {y.ticks(6).map((tick) => (
          <text x={margin.left - 8} y={y(tick) + 4} text-anchor="end">
            {tick}
          </text>
        ))}
        {x.ticks(5).map((tick) => (
          <text x={x(tick)} y={height - margin.bottom + 16} text-anchor="middle">
            {tick}
          </text>
        ))}
        <text x={margin.left} y={height - 6}>{`mean of the two, ${unit}; upright: their difference`}</text>
        {lines.map(({ interval }) => (
          <rect
            class="interval"
            x={margin.left}
            width={width - margin.left - margin.right}
            y={y(interval[1])}
            height={y(interval[0]) - y(interval[1])}
          />
        ))}
        <line class="middle" x1={margin.left} x2={width - margin.right} y1={y(0)} y2={y(0)} />
        {lines.map(({ at, kind }) => (
          <line class={kind} x1={margin.left} x2={width - margin.right} y1={y(at)} y2={y(at)} />
        ))}
        {points.map(({ middle, difference, says }) => (
          <circle class="dot" cx={x(middle).toFixed(1)} cy={y(difference).toFixed(1)} r="4">
            <title>{says}</title>
          </circle>
        ))}
      </svg>
    </figure>
  );
}

function extentOf(values: readonly number[]): [number, number] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return low === high ? [low - 1, high + 1] : [low, high];
}
