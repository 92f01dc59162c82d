import type { Report } from '../../core/report/report.ts';
import { sentence } from '../../core/report/sentence.ts';
import { LineFigure } from './line-figure.tsx';
import { boxOf, frameOn, placesOf, type View, views } from './views.ts';

const size = { width: 600, height: 480 } as const;
/** Above the highest marker there is a head, as a share of the height. */
const headShare = 1.17;

/** The patient as they stand, from the front and from the side that stands out: for a step that asks to stand again. */
export function StancePicture({ report, id }: { readonly report: Report; readonly id: string }) {
  const places = [...placesOf(report).values()];
  if (places.length === 0) return null;
  const out = report.stance?.measures.filter(({ status }) => status === 'fail') ?? [];
  const side: View = out.some((measure) => measure.side === 'left') ? 'left' : 'right';
  const tall = Math.max(...places.map(([, , up]) => up));
  const half = size.width / 2;
  return (
    <figure class="region">
      <svg viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-labelledby={`${id}-title ${id}-desc`}>
        <title
          id={`${id}-title`}
        >{`The patient as they stand, seen ${views.front.from} and ${views[side].from}`}</title>
        <desc id={`${id}-desc`}>{out.map(({ says }) => sentence(says)).join(' ')}</desc>
        <rect class="ground" width={size.width} height={size.height} rx="14" />
        {(['front', side] as const).map((view, index) => (
          <g transform={`translate(${index * half} 8)`}>
            <LineFigure
              report={report}
              view={view}
              frame={frameOn(
                boxOf([...places.map(views[view].flatten), [0, 0], [0, -tall * headShare]], 40),
                half,
                size.height - 60,
              )}
            />
            <text class="edge" x={half / 2} y={size.height - 24} text-anchor="middle">
              {views[view].from}
            </text>
          </g>
        ))}
      </svg>
    </figure>
  );
}
