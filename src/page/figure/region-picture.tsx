import type { MoveProposal, Report } from '../../core/report/report.ts';
import { distanceWords } from '../words.ts';
import { ExpectedPlanes } from './finding-lines.tsx';
import { LineFigure } from './line-figure.tsx';
import { Locator } from './locator.tsx';
import { ShiftArrow } from './shift-arrow.tsx';
import { movementOf, viewOf } from './step-view.ts';
import { type Flat, type Frame, frameOn, type Place, placesOf, views } from './views.ts';

const size = { width: 600, height: 480 } as const;
/** The region is shown this many times as wide as the movement is long, within what still shows a part of a body. */
const timesMovement = 7;
const regionMm = { least: 230, most: 620 } as const;
/** How far the marker stands from the middle, toward its body, so that there is room for the distance beside it. */
const asideShare = 0.16;

interface RegionPictureProps {
  readonly report: Report;
  readonly move: MoveProposal;
  readonly id: string;
}

/** The part of the body that a step is about: where the marker is, where it is expected, and the way between. */
export function RegionPicture({ report, move, id }: RegionPictureProps) {
  const movement = movementOf(move);
  const here = move.marker === undefined ? undefined : placesOf(report).get(move.marker);
  if (movement === null || here === undefined || move.marker === undefined) return null;
  const view = viewOf(movement, move.side, isBehindItsSegment(report, move.marker, here));
  const there: Place = [here[0] + movement[0], here[1] + movement[1], here[2] + movement[2]];
  const { flatten } = views[view];
  const isLabelRight = segmentMiddle(report, move.marker, here, flatten) <= flatten(here)[0];
  const frame = frameOfRegion(flatten(here), flatten(there), isLabelRight);
  const resolved = report.rules.filter(({ id: rule }) => move.resolves.includes(rule));
  // The corner over the distance hides nothing, where there is room for it.
  const isLow = frame.to(flatten(here))[1] > 0.75 * size.height;
  const marker = report.markers[move.marker]!;
  const name = `${marker.side === 'midline' ? '' : `${marker.side} `}${marker.called}`;
  return (
    <figure class="region">
      <svg viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-labelledby={`${id}-title ${id}-desc`}>
        <title id={`${id}-title`}>{`The patient's ${name}, seen ${views[view].from}`}</title>
        <desc id={`${id}-desc`}>
          {`A filled dot shows where it is, a dashed ring where it is expected: ${distanceWords(move)} ${move.along ?? ''}.`}
        </desc>
        <clipPath id={`${id}-clip`}>
          <rect width={size.width} height={size.height} rx="14" />
        </clipPath>
        <g clip-path={`url(#${id}-clip)`}>
          <rect class="ground" width={size.width} height={size.height} />
          <LineFigure report={report} view={view} frame={frame} nearOnly without={new Set([move.marker])} />
          <ExpectedPlanes view={view} frame={frame} findings={resolved} />
          <ShiftArrow
            from={frame.to(flatten(here))}
            to={frame.to(flatten(there))}
            move={move}
            scale={frame.scale}
            isLabelRight={isLabelRight}
          />
        </g>
        <text class="edge" x="14" y={size.height - 14}>
          {views[view].edges.left}
        </text>
        <text class="edge" x={size.width - 14} y={size.height - 14} text-anchor="end">
          {views[view].edges.right}
        </text>
        <Locator report={report} view={view} region={frame} isRight={isLow ? isLabelRight : !isLabelRight} />
      </svg>
      <figcaption>
        <strong>{`Seen ${views[view].from}`}</strong>
        <span>
          <svg class="key" viewBox="0 0 24 24" aria-hidden="true">
            <circle class="here" cx="12" cy="12" r="9" />
          </svg>
          {' where it is '}
        </span>
        <span>
          <svg class="key" viewBox="0 0 24 24" aria-hidden="true">
            <circle class="expected" cx="12" cy="12" r="9" />
          </svg>
          {' where it is expected'}
        </span>
      </figcaption>
    </figure>
  );
}

function isBehindItsSegment(report: Report, label: string, here: Place): boolean {
  const places = placesOf(report);
  const own = report.figure?.segments.find(({ markers }) => markers.includes(label))?.markers ?? [];
  const others = own.flatMap((other) => (other === label ? [] : [places.get(other)?.[0] ?? here[0]]));
  return others.length > 0 && others.every((forward) => forward > here[0]);
}

/** Where the rest of a marker's segment lies in the picture, left to right. */
function segmentMiddle(report: Report, label: string, here: Place, flatten: (place: Place) => Flat): number {
  const places = placesOf(report);
  const own = report.figure?.segments.find(({ markers }) => markers.includes(label))?.markers ?? [];
  const across = own.map((other) => flatten(places.get(other) ?? here)[0]);
  return across.length === 0 ? flatten(here)[0] : across.reduce((sum, x) => sum + x, 0) / across.length;
}

/** The marker and its way near the middle, at a size at which the way is well seen. */
function frameOfRegion(here: Flat, there: Flat, isLabelRight: boolean): Frame {
  const long = Math.hypot(there[0] - here[0], there[1] - here[1]);
  const wide = Math.min(regionMm.most, Math.max(regionMm.least, long * timesMovement));
  const high = (wide * size.height) / size.width;
  const middle: Flat = [
    (here[0] + there[0]) / 2 + (isLabelRight ? 1 : -1) * asideShare * wide,
    (here[1] + there[1]) / 2,
  ];
  const box = {
    left: middle[0] - wide / 2,
    right: middle[0] + wide / 2,
    top: middle[1] - high / 2,
    bottom: middle[1] + high / 2,
  };
  // Never much below the floor: nothing is there to see.
  const sink = Math.max(0, box.bottom - 0.12 * high);
  return frameOn({ ...box, top: box.top - sink, bottom: box.bottom - sink }, size.width, size.height);
}
