import { useEffect, useRef, useState } from 'preact/hooks';
import { Arrow } from '../../page/figure/arrow.tsx';
import { LineFigure } from '../../page/figure/line-figure.tsx';
import {
  type DrawnPatient,
  type Flat,
  type Place,
  placesOf,
  svgNumber,
  type View,
  views,
} from '../../page/figure/views.ts';
import { frameOnRegion, picture, regionsOf, rulerFor } from './figure-region.ts';

/** Where a marker is and where it goes, once that may be told. */
export interface ToldMove {
  readonly marker: string;
  /** Forward, left, up; mm. */
  readonly by: Place;
}

interface FigureViewerProps {
  readonly patient: DrawnPatient;
  readonly chosen: string;
  /** Null where nothing can be chosen any more. */
  readonly choose: ((marker: string) => void) | null;
  readonly told: readonly ToldMove[];
  /** What the trainee wrote, once the other is told. */
  readonly written: readonly ToldMove[];
}

const shownViews: readonly View[] = ['front', 'behind', 'right', 'left', 'above'];
const closer = 1.5;
const mostZoom = 8;
/** A finger's width, in picture units. */
const tapRadius = 22;

/** The figure, large: from five sides, whole or a region of it, with a level and a plumb line through a chosen marker. */
export function FigureViewer({ patient, chosen, choose, told, written }: FigureViewerProps) {
  const [view, look] = useState<View>(() => viewOf(told[0] ?? written[0], patient));
  const [region, goTo] = useState(told.length > 0 ? 'marker' : '');
  const [zoom, setZoom] = useState(1);
  const places = placesOf(patient);
  const frame = frameOnRegion(patient, view, region, zoom, places.get(chosen) ?? null);
  const to = (place: Place) => frame.to(views[view].flatten(place));
  const at = places.get(chosen);
  const { edges, from } = views[view];
  const ruler = rulerFor(frame.scale);
  const drawing = useRef<SVGSVGElement>(null);
  // A convenience of pointers: whoever has none chooses in the list.
  useEffect(() => {
    const svg = drawing.current!;
    const tapped = ({ clientX, clientY }: MouseEvent) => {
      const onPicture = new DOMPoint(clientX, clientY).matrixTransform(svg.getScreenCTM()!.inverse());
      const near = nearestMarker(places, to, [onPicture.x, onPicture.y], views[view].nearness);
      if (near !== null) choose?.(near);
    };
    svg.addEventListener('click', tapped);
    return () => svg.removeEventListener('click', tapped);
  });
  return (
    <figure class="looked-at">
      <div class="looking">
        <fieldset aria-label="Seen from">
          {shownViews.map((one) => (
            <button type="button" aria-pressed={one === view} onClick={() => look(one)}>
              {one}
            </button>
          ))}
        </fieldset>
        <label>
          {'Look at '}
          <select value={region} onChange={({ currentTarget }) => goTo(currentTarget.value)}>
            {regionsOf(patient).map(({ name, says }) => (
              <option value={name}>{says}</option>
            ))}
            {at === undefined ? null : <option value="marker">around the chosen marker</option>}
          </select>
        </label>
        <fieldset aria-label="Distance">
          <button type="button" disabled={zoom >= mostZoom} onClick={() => setZoom(zoom * closer)}>
            Closer
          </button>
          <button type="button" disabled={zoom <= 1} onClick={() => setZoom(Math.max(1, zoom / closer))}>
            Further
          </button>
        </fieldset>
      </div>
      <svg
        ref={drawing}
        viewBox={`0 0 ${picture.width} ${picture.height}`}
        role="img"
        aria-label={`The figure seen ${from}`}
      >
        <LineFigure report={patient} view={view} frame={frame} told={new Set([chosen])} />
        {at === undefined ? null : <Aids at={to(at)} />}
        <MoveArrows moves={written} kind="yours" places={places} to={to} radius={0} />
        <MoveArrows moves={told} kind="right-one" places={places} to={to} radius={Math.max(8, 7 * frame.scale)} />
        {choose === null
          ? null
          : [...places].map(([marker, place]) => {
              const [x, y] = to(place);
              return <circle class="tap" cx={svgNumber(x)} cy={svgNumber(y)} r={12} data-marker={marker} />;
            })}
        <g class="ruler">
          <path d={`M16 14v8h${svgNumber(ruler * frame.scale)}v-8`} />
          <text x="18" y="42">{`${ruler} mm`}</text>
        </g>
      </svg>
      {told.length + written.length === 0 ? null : (
        <p class="small">
          {told.length === 0 ? 'Grey: what you wrote.' : 'Orange: the way it goes. Grey: what you wrote.'}
        </p>
      )}
      <p class="sides">
        <span>{edges.left}</span>
        <span>{view === 'above' ? 'forward is up' : ''}</span>
        <span>{edges.right}</span>
      </p>
    </figure>
  );
}

/** Where a way is seen: what goes to a side from the front, all else from the marker's own side. */
function viewOf(move: ToldMove | undefined, { markers }: DrawnPatient): View {
  if (move === undefined) return 'front';
  const [forward, left, up] = move.by.map(Math.abs) as [number, number, number];
  if (left > Math.max(forward, up)) return 'front';
  return markers[move.marker]?.side === 'left' ? 'left' : 'right';
}

interface MoveArrowsProps {
  readonly moves: readonly ToldMove[];
  readonly kind: 'yours' | 'right-one';
  readonly places: ReadonlyMap<string, Place>;
  readonly to: (place: Place) => Flat;
  /** Of a circle where the marker goes; 0 for none. */
  readonly radius: number;
}

function MoveArrows({ moves, kind, places, to, radius }: MoveArrowsProps) {
  return (
    <g class={kind}>
      {moves.map(({ marker, by }) => {
        const here = places.get(marker);
        if (here === undefined) return null;
        const end = to([here[0] + by[0], here[1] + by[1], here[2] + by[2]]);
        return (
          <g>
            {radius === 0 ? null : (
              <circle class="expected" cx={svgNumber(end[0])} cy={svgNumber(end[1])} r={svgNumber(radius)} />
            )}
            <Arrow from={to(here)} to={end} thick={7} />
          </g>
        );
      })}
    </g>
  );
}

function Aids({ at: [x, y] }: { readonly at: readonly [number, number] }) {
  return <path class="aid" d={`M0 ${svgNumber(y)}H${picture.width}M${svgNumber(x)} 0V${picture.height}`} />;
}

/** The marker under a finger: the nearest one, and of two that lie upon each other the one in front. */
function nearestMarker(
  places: ReadonlyMap<string, Place>,
  to: (place: Place) => Flat,
  [x, y]: Flat,
  nearness: (place: Place) => number,
): string | null {
  const under = [...places]
    .map(([marker, place]) => ({ marker, place, apart: Math.hypot(to(place)[0] - x, to(place)[1] - y) }))
    .filter(({ apart }) => apart <= tapRadius)
    .sort((a, b) => a.apart - b.apart);
  const upon = under.filter(({ apart }) => apart - under[0]!.apart < tapRadius / 4);
  return upon.sort((a, b) => nearness(b.place) - nearness(a.place))[0]?.marker ?? null;
}
