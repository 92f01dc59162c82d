import { scaleLinear } from 'd3-scale';
import { mean } from '../../core/repeatability/mean-squares.ts';
import { fixed } from '../../core/report/rounding.ts';
import type { CaptureRecord } from '../../core/study/study-report.ts';

interface DotPlotProps {
  readonly title: string;
  readonly unit: string;
  readonly captures: readonly CaptureRecord[];
  /** In the order of the captures. */
  readonly values: readonly (number | null)[];
  /** What lies to the right of the middle and to the left of it, in words; empty where the sign says it. */
  readonly ways: readonly [left: string, right: string];
}

const width = 560;
const margin = { left: 96, right: 16, top: 10, bottom: 40 };
const laneHeight = 12;
const gap = 14;

interface Dot {
  readonly subject: string;
  readonly assessor: string;
  readonly session: string;
  /** From the mean of the subject. */
  readonly off: number;
}

/**
 * Every capture as a dot: how far it lies from the mean of its subject, in a band for each assessor and a lane for each
 * subject; sessions of one cell are joined. The bar of a band is the mean of its assessor.
 */
export function DotPlot({ title, unit, captures, values, ways }: DotPlotProps) {
  const dots = dotsOf(captures, values);
  const assessors = [...new Set(dots.map(({ assessor }) => assessor))];
  const subjects = [...new Set(dots.map(({ subject }) => subject))];
  const bandHeight = subjects.length * laneHeight + gap;
  const height = margin.top + assessors.length * bandHeight + margin.bottom;
  const furthest = Math.max(0.5, ...dots.map(({ off }) => Math.abs(off)));
  const x = scaleLinear()
    .domain([-furthest, furthest])
    .nice()
    .range([margin.left, width - margin.right]);
  const bottom = height - margin.bottom;
  const laneOf = ({ assessor, subject }: Dot): number =>
    margin.top + assessors.indexOf(assessor) * bandHeight + gap / 2 + (subjects.indexOf(subject) + 0.5) * laneHeight;
  const means = assessors.map((assessor) =>
    mean(dots.filter((dot) => dot.assessor === assessor).map(({ off }) => off)),
  );
  const said = assessors
    .map((assessor, index) => `${assessor} ${fixed(1, means[index]!)} ${unit} on average`)
    .join(', ');
  return (
    <figure>
      <figcaption>
        <b>{title}</b>
      </figcaption>
      <svg class="study-plot" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={`${title}: ${said}.`}>
        {x.ticks(6).map((tick) => (
          <>
            <line class={tick === 0 ? 'middle' : 'grid'} x1={x(tick)} x2={x(tick)} y1={margin.top} y2={bottom} />
            <text x={x(tick)} y={bottom + 16} text-anchor="middle">
              {tick}
            </text>
          </>
        ))}
        <text x={margin.left} y={height - 6}>
          {ways[0] === '' ? '' : `← ${ways[0]}`}
        </text>
        <text x={(margin.left + width - margin.right) / 2} y={height - 6} text-anchor="middle">
          {unit}
        </text>
        <text x={width - margin.right} y={height - 6} text-anchor="end">
          {ways[1] === '' ? '' : `${ways[1]} →`}
        </text>
        {assessors.map((assessor, index) => {
          const top = margin.top + index * bandHeight;
          return (
            <>
              {index === 0 ? null : <line class="band-edge" x1={0} x2={width - margin.right} y1={top} y2={top} />}
              <text class="assessor" x={margin.left - 10} y={top + bandHeight / 2 + 5} text-anchor="end">
                {assessor}
              </text>
              <rect class="mean" x={x(means[index]!) - 2} width="4" y={top + 4} height={bandHeight - 8} />
            </>
          );
        })}
        {cellsOf(dots).map((cell) => (
          <line
            class="join"
            x1={x(Math.min(...cell.map(({ off }) => off)))}
            x2={x(Math.max(...cell.map(({ off }) => off)))}
            y1={laneOf(cell[0]!)}
            y2={laneOf(cell[0]!)}
          />
        ))}
        {dots.map((dot) => (
          <circle class="dot" cx={x(dot.off).toFixed(1)} cy={laneOf(dot).toFixed(1)} r="4">
            <title>{`${dot.subject} by ${dot.assessor}, session ${dot.session}: ${fixed(1, dot.off)} ${unit}`}</title>
          </circle>
        ))}
      </svg>
    </figure>
  );
}

function dotsOf(captures: readonly CaptureRecord[], values: readonly (number | null)[]): Dot[] {
  const seen = captures.flatMap(({ subject, assessor, session }, index) => {
    const value = values[index] ?? null;
    return value === null ? [] : [{ subject, assessor, session, value }];
  });
  return seen.map(({ value, ...placing }) => ({
    ...placing,
    off: value - mean(seen.filter(({ subject }) => subject === placing.subject).map((one) => one.value)),
  }));
}

function cellsOf(dots: readonly Dot[]): Dot[][] {
  const cells = new Map<string, Dot[]>();
  for (const dot of dots) {
    const key = JSON.stringify([dot.subject, dot.assessor]);
    cells.set(key, [...(cells.get(key) ?? []), dot]);
  }
  return [...cells.values()];
}
