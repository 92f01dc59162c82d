import type { MoveProposal } from '../../core/report/report.ts';
import { distanceWords } from '../words.ts';
import { Arrow } from './arrow.tsx';
import { type Flat, svgNumber } from './views.ts';

interface ShiftArrowProps {
  readonly from: Flat;
  readonly to: Flat;
  readonly move: MoveProposal;
  /** Picture units a mm. */
  readonly scale: number;
  readonly isLabelRight: boolean;
}

const markerRadiusMm = 7;
const leastRadius = 13;
/** Between the markers there is room for an arrow of at least this length. */
const leastArrow = 46;

/** Where a marker is, where it is expected, and an arrow: between them where there is room, else beside them. */
export function ShiftArrow({ from, to, move, scale, isLabelRight }: ShiftArrowProps) {
  const radius = Math.max(leastRadius, markerRadiusMm * scale);
  const across: Flat = [to[0] - from[0], to[1] - from[1]];
  const long = Math.hypot(...across) || 1;
  const along: Flat = [across[0] / long, across[1] / long];
  const isUpright = Math.abs(along[1]) > Math.abs(along[0]);
  const hasRoom = long > 2 * radius + leastArrow;
  // Square to the way: toward the label, or down where the way lies level.
  const square: Flat = isUpright === along[1] > 0 ? [along[1], -along[0]] : [-along[1], along[0]];
  const sign = isUpright ? (square[0] > 0 === isLabelRight ? 1 : -1) : square[1] > 0 ? 1 : -1;
  const beside = ([x, y]: Flat, by: number): Flat => [x + sign * square[0] * by, y + sign * square[1] * by];
  const onWay = ([x, y]: Flat, by: number): Flat => [x + along[0] * by, y + along[1] * by];
  const offset = radius + 26;
  const [start, end] = hasRoom
    ? [onWay(from, radius + 6), onWay(to, -radius - 8)]
    : [beside(from, offset), beside(to, offset)];
  const label = beside([(start[0] + end[0]) / 2, (start[1] + end[1]) / 2], hasRoom && isUpright ? radius + 16 : 30);
  const doubt = (move.uncertaintyMm ?? 0) >= 8 ? (move.uncertaintyMm ?? 0) * scale : 0;
  return (
    <g>
      {doubt > radius + 6 ? (
        <circle class="doubt" cx={svgNumber(to[0])} cy={svgNumber(to[1])} r={svgNumber(doubt)} />
      ) : null}
      {hasRoom ? null : [from, to].map((at) => <Extension from={at} to={beside(at, offset + 14)} />)}
      <circle class="here" cx={svgNumber(from[0])} cy={svgNumber(from[1])} r={svgNumber(radius)} />
      <circle class="expected" cx={svgNumber(to[0])} cy={svgNumber(to[1])} r={svgNumber(radius)} />
      <Arrow from={start} to={end} thick={12} />
      <text
        class="distance"
        x={svgNumber(label[0])}
        y={svgNumber(label[1] + (isUpright ? 14 : 34))}
        text-anchor={isUpright ? (isLabelRight ? 'start' : 'end') : 'middle'}
      >
        {distanceWords(move)}
      </text>
    </g>
  );
}

function Extension({ from, to }: { readonly from: Flat; readonly to: Flat }) {
  return (
    <line
      class="extension"
      x1={svgNumber(from[0])}
      y1={svgNumber(from[1])}
      x2={svgNumber(to[0])}
      y2={svgNumber(to[1])}
    />
  );
}
