import type { Move, Report } from '../../core/report/report.ts';
import { LineFigure } from './line-figure.tsx';
import { boxOf, frameOn, placesOf, svgNumber, type View, views } from './views.ts';

const size = { width: 600, height: 480 } as const;

/** Exchanged labels: the markers stay, the names change places. */
export function RelabelPicture({
  report,
  move,
  id,
}: {
  readonly report: Report;
  readonly move: Move;
  readonly id: string;
}) {
  const places = placesOf(report);
  const labels = exchangedLabels(report, move);
  const known = labels.filter((label) => places.has(label));
  if (known.length === 0) return null;
  const view: View = 'front';
  const { flatten } = views[view];
  const flat = known.map((label) => flatten(places.get(label)!));
  const isWhole = known.length > 6;
  const box = isWhole ? boxOf([...places.values()].map(flatten), 60) : boxOf(flat, 130);
  const frame = frameOn(box, size.width, size.height);
  return (
    <figure class="region">
      <svg viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-labelledby={`${id}-title`}>
        <title id={`${id}-title`}>{`Labels to exchange: ${known.join(', ')}; seen ${views[view].from}`}</title>
        <clipPath id={`${id}-clip`}>
          <rect width={size.width} height={size.height} rx="14" />
        </clipPath>
        <g clip-path={`url(#${id}-clip)`}>
          <rect class="ground" width={size.width} height={size.height} />
          <LineFigure report={report} view={view} frame={frame} told={new Set(known)} />
          {isWhole
            ? null
            : known.map((label, index) => {
                const [x, y] = frame.to(flat[index]!);
                return (
                  <text class="label" x={svgNumber(x)} y={svgNumber(y - 22)} text-anchor="middle">
                    {label}
                  </text>
                );
              })}
          <text class="edge" x="16" y="462">
            {views[view].edges.left}
          </text>
          <text class="edge" x={size.width - 16} y="462" text-anchor="end">
            {views[view].edges.right}
          </text>
        </g>
      </svg>
      <figcaption>
        <strong>{`Seen ${views[view].from}`}</strong>
        <span>the markers stay where they are; each name is shown where it belongs</span>
      </figcaption>
    </figure>
  );
}

/** The pair of a step: as a problem of the trial lists it, else the one marker that the step names. */
function exchangedLabels({ problems }: Report, { marker }: Move): readonly string[] {
  const swaps = problems.filter(({ code }) => code === 'labels-swapped');
  const own = swaps.find(({ markers }) => marker === undefined || markers.includes(marker));
  return own?.markers ?? (marker === undefined ? [] : [marker]);
}
