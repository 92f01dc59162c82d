import type { Report, ReportedRule } from '../../core/report/report.ts';
import { ruleName } from '../../core/report/rule-name.ts';
import { FindingLines } from '../figure/finding-lines.tsx';
import { LineFigure } from '../figure/line-figure.tsx';
import { boxOf, type Flat, type Frame, frameOn, placesOf, svgNumber, type View, views } from '../figure/views.ts';
import { Heading, type Level } from '../heading.tsx';

const shown: readonly View[] = ['front', 'right', 'left', 'above'];
const height = 560;

interface ViewsProps {
  readonly report: Report;
  readonly id: string;
  readonly level: Level;
}

/** The patient from four sides, with the line or plane of each finding drawn in. */
export function Views({ report, id, level }: ViewsProps) {
  if (report.figure === null || Object.keys(report.markers).length === 0) return null;
  const findings = report.rules.filter(
    ({ status }) => status === 'fail' || status === 'borderline' || status === 'accepted',
  );
  return (
    <section class="views" aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        The patient from four sides
      </Heading>
      <div class="four">
        {shown.map((view) => (
          <WholeView report={report} view={view} findings={findings} id={`${id}-${view}`} />
        ))}
      </div>
      {findings.length === 0 ? null : (
        <ol class="finding-key">
          {findings.map((rule) => (
            <li>{`${ruleName(rule)}${rule.seen === '' ? '' : `: look ${rule.seen}`}`}</li>
          ))}
        </ol>
      )}
      <p class="small">
        Lines and dots are the measured markers; the pale body is only for orientation. Drawn from the patient, so that
        their right is their right.
      </p>
    </section>
  );
}

/** Where each plate is pressed upon, from above. */
function Pressure({ report, frame }: { readonly report: Report; readonly frame: Frame }) {
  const centres = (report.plates?.each ?? []).flatMap(({ number, centreMm }) =>
    centreMm === null ? [] : [{ number, at: frame.to(views.above.flatten(centreMm)) }],
  );
  return (
    <g class="pressure">
      {centres.map(({ number, at: [x, y] }) => (
        <g>
          <path d={`M${svgNumber(x - 8)} ${svgNumber(y)}h16M${svgNumber(x)} ${svgNumber(y - 8)}v16`} />
          <text x={svgNumber(x + 12)} y={svgNumber(y + 6)}>{`plate ${number}`}</text>
        </g>
      ))}
    </g>
  );
}

interface WholeViewProps {
  readonly report: Report;
  readonly view: View;
  readonly findings: readonly ReportedRule[];
  readonly id: string;
}

function WholeView({ report, view, findings, id }: WholeViewProps) {
  const { flatten, from, edges } = views[view];
  const flat: Flat[] = [...placesOf(report).values()].map(flatten);
  const tall = Math.max(...Object.values(report.markers).map(({ mm }) => mm[2]));
  const box = boxOf(view === 'above' ? flat : [...flat, [0, 0], [0, -tall * 1.17]], 70);
  const width = view === 'above' ? 520 : 360;
  const frame = frameOn(box, width, view === 'above' ? 430 : height);
  const told = new Set(findings.flatMap(({ status, markers }) => (status === 'fail' ? markers : [])));
  const seen = findings.map((rule) => rule.says).filter((text) => text !== '');
  return (
    <figure class={view === 'above' ? 'view wide' : 'view'}>
      <svg viewBox={`0 0 ${width} ${frame.height}`} role="img" aria-labelledby={`${id}-title ${id}-desc`}>
        <title id={`${id}-title`}>{`The patient seen ${from}`}</title>
        <desc id={`${id}-desc`}>
          {`On the left of the picture: ${edges.left}; on the right: ${edges.right}.${view === 'above' ? ' Forward is up.' : ''} ${seen.length === 0 ? 'Nothing found is drawn in.' : `Drawn in: ${seen.join('; ')}.`}`}
        </desc>
        <LineFigure report={report} view={view} frame={frame} told={told} />
        {view === 'above' ? <Pressure report={report} frame={frame} /> : null}
        <FindingLines view={view} frame={frame} findings={findings} />
        {view === 'above' ? (
          <text class="edge" x={width / 2} y="30" text-anchor="middle">
            front
          </text>
        ) : null}
      </svg>
      <figcaption>{`Seen ${from}`}</figcaption>
      <p class="sides" aria-hidden="true">
        <span>{edges.left}</span>
        <span>{edges.right}</span>
      </p>
    </figure>
  );
}
