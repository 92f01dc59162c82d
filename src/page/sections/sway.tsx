import { scaleLinear } from 'd3-scale';
import type { Report, ReportedSway } from '../../core/report/report.ts';
import { fixed } from '../../core/report/rounding.ts';
import { svgNumber } from '../figure/views.ts';
import { Heading, type Level } from '../heading.tsx';

const size = { width: 560, height: 190, left: 48, bottom: 34, top: 12, right: 12 } as const;

const ways = [
  { key: 'forwardMm', title: 'Forward and back', up: 'forward', down: 'back' },
  { key: 'leftMm', title: 'To the left and right', up: 'left', down: 'right' },
] as const;

/** How pelvis and feet moved over the trial, with the frames that were used. */
export function Sway({ report, id, level }: { readonly report: Report; readonly id: string; readonly level: Level }) {
  const { sway, trial } = report;
  if (sway === null || sway.frames.length < 2 || trial.window === null) return null;
  return (
    <section class="sway" aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        Sway
      </Heading>
      <p>{`In the frames used the markers sway by ${fixed(1, trial.window.swayMm)} mm (1 SD, the middle one of all markers).`}</p>
      <div class="charts">
        {ways.map((way) => (
          <Chart report={report} sway={sway} window={trial.window!} way={way} id={`${id}-${way.key}`} />
        ))}
      </div>
    </section>
  );
}

interface ChartProps {
  readonly report: Report;
  readonly sway: ReportedSway;
  readonly window: NonNullable<Report['trial']['window']>;
  readonly way: (typeof ways)[number];
  readonly id: string;
}

function Chart({ report, sway, window, way, id }: ChartProps) {
  const { rateHz } = report.trial;
  const first = sway.frames[0]!;
  const time = (frame: number): number => (rateHz === null || rateHz <= 0 ? frame : (frame - first) / rateHz);
  const inWindow = (values: readonly (number | null)[]): number[] =>
    values.filter((value, index): value is number => {
      const frame = sway.frames[index]!;
      return value !== null && frame >= window.firstFrame && frame <= window.lastFrame;
    });
  const pelvis = sway.pelvis[way.key];
  const feet = sway.feet[way.key];
  // Steps into the volume would flatten what matters: the scale is for the frames used, with room.
  const reach = 2.2 * Math.max(4, ...[...inWindow(pelvis), ...inWindow(feet)].map(Math.abs));
  const x = scaleLinear()
    .domain([time(first), time(sway.frames.at(-1)!)])
    .range([size.left, size.width - size.right]);
  const y = scaleLinear()
    .domain([-reach, reach])
    .range([size.height - size.bottom, size.top]);
  const path = (values: readonly (number | null)[]): string =>
    curve(values.map((value, index) => (value === null ? null : [x(time(sway.frames[index]!)), y(value)])));
  const span = (values: readonly (number | null)[]): string => {
    const used = inWindow(values);
    return used.length === 0 ? 'not seen' : `${fixed(1, Math.max(...used) - Math.min(...used))} mm`;
  };
  const described = `${way.title}: in the frames used the pelvis moves over ${span(pelvis)}, the feet over ${span(feet)}.`;
  const [from, to] = [x(time(window.firstFrame)), x(time(window.lastFrame))];
  return (
    <figure>
      <svg viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-labelledby={`${id}-title`}>
        <title id={`${id}-title`}>{described}</title>
        <clipPath id={`${id}-clip`}>
          <rect
            x={size.left}
            y={size.top}
            width={size.width - size.left - size.right}
            height={size.height - size.bottom - size.top}
          />
        </clipPath>
        <rect
          class="used"
          x={svgNumber(from)}
          y={size.top}
          width={svgNumber(Math.max(1, to - from))}
          height={size.height - size.bottom - size.top}
        />
        {y.ticks(4).map((tick) => (
          <g>
            <line
              class="grid"
              x1={size.left}
              x2={size.width - size.right}
              y1={svgNumber(y(tick))}
              y2={svgNumber(y(tick))}
            />
            <text x={size.left - 6} y={svgNumber(y(tick) + 4)} text-anchor="end">
              {tick}
            </text>
          </g>
        ))}
        {x.ticks(6).map((tick) => (
          <text x={svgNumber(x(tick))} y={size.height - 14} text-anchor="middle">
            {tick}
          </text>
        ))}
        <g clip-path={`url(#${id}-clip)`}>
          <path class="curve feet" d={path(feet)} />
          <path class="curve pelvis" d={path(pelvis)} />
        </g>
        <text class="unit" x={size.width - size.right} y={size.height - 1} text-anchor="end">
          {rateHz === null || rateHz <= 0 ? 'frame' : 's'}
        </text>
        <text class="unit" x={size.left + 6} y={size.top + 12}>{`mm ${way.up}`}</text>
        <text class="unit" x={size.left + 6} y={size.height - size.bottom - 6}>{`mm ${way.down}`}</text>
      </svg>
      <figcaption>{`${described} Full line: pelvis; dashed: feet; shaded: the frames used.`}</figcaption>
    </figure>
  );
}

function curve(points: readonly (readonly [number, number] | null)[]): string {
  let isPen = false;
  return points
    .map((point) => {
      if (point === null) {
        isPen = false;
        return '';
      }
      const command = isPen ? 'L' : 'M';
      isPen = true;
      return `${command}${svgNumber(point[0])} ${svgNumber(point[1])}`;
    })
    .join('');
}
