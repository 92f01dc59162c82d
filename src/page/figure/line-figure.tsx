import { bodyShape } from './body-shape.ts';
import { type DrawnPatient, type Frame, farSide, type Place, placesOf, svgNumber, type View, views } from './views.ts';

interface LineFigureProps {
  readonly report: DrawnPatient;
  readonly view: View;
  readonly frame: Frame;
  /** Markers that something is said about: the others are drawn quieter. */
  readonly told?: ReadonlySet<string>;
  /** Markers that are drawn by whoever calls. */
  readonly without?: ReadonlySet<string>;
  /** Leaves out markers and lines of the side that is further away. */
  readonly nearOnly?: boolean;
}

const none: ReadonlySet<string> = new Set();

/** The patient as a calm line figure: a pale body, lines from marker to marker, the markers themselves. */
export function LineFigure({ report, view, frame, told = none, without = none, nearOnly = false }: LineFigureProps) {
  const places = placesOf(report);
  const far = farSide(view);
  const isFar = (label: string): boolean => far !== null && report.markers[label]!.side === far;
  const to = (place: Place) => frame.to(views[view].flatten(place));
  const shapes = bodyShape(report, view, frame);
  const joins = (report.figure?.joins ?? []).flatMap(([a, b]) => {
    const [from, end] = [places.get(a), places.get(b)];
    return from && end && !(nearOnly && (isFar(a) || isFar(b)))
      ? [{ from: to(from), end: to(end), far: isFar(a) || isFar(b) }]
      : [];
  });
  const markers = [...places].filter(([label]) => !without.has(label) && !(nearOnly && isFar(label)));
  const radius = Math.max(2.4, 7 * frame.scale);
  return (
    <g>
      {view === 'above' ? null : <Floor frame={frame} />}
      {[true, false].map((isBehind) => (
        <g class={isBehind ? 'flesh far' : 'flesh'}>
          {shapes
            .filter((part) => part.isFar === isBehind)
            .map(({ path, widen }) => (
              <path d={path} stroke-width={svgNumber(widen)} />
            ))}
        </g>
      ))}
      {[true, false].map((isBehind) => (
        <g class={isBehind ? 'bones far' : 'bones'}>
          {joins
            .filter((join) => join.far === isBehind)
            .map(({ from, end }) => (
              <line x1={svgNumber(from[0])} y1={svgNumber(from[1])} x2={svgNumber(end[0])} y2={svgNumber(end[1])} />
            ))}
        </g>
      ))}
      {markers.map(([label, place]) => {
        const [x, y] = to(place);
        const kind = told.has(label) ? 'dot told' : isFar(label) ? 'dot far' : 'dot';
        return (
          <circle
            class={kind}
            cx={svgNumber(x)}
            cy={svgNumber(y)}
            r={svgNumber(told.has(label) ? radius * 1.35 : radius)}
          />
        );
      })}
    </g>
  );
}

function Floor({ frame }: { readonly frame: Frame }) {
  const y = svgNumber(frame.to([0, 0])[1]);
  return <line class="floor" x1="0" y1={y} x2={frame.width} y2={y} />;
}
