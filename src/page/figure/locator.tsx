import { LineFigure } from './line-figure.tsx';
import {
  boxOf,
  type DrawnPatient,
  type Flat,
  type Frame,
  frameOn,
  placesOf,
  svgNumber,
  type View,
  views,
} from './views.ts';

const inset = { width: 124, height: 236, margin: 12, padding: 8 } as const;

interface LocatorProps {
  readonly report: DrawnPatient;
  readonly view: View;
  readonly region: Frame;
  /** In which upper corner of the picture. */
  readonly isRight: boolean;
}

/** The whole patient in a corner, with the region of the picture marked. */
export function Locator({ report, view, region, isRight }: LocatorProps) {
  const all = [...placesOf(report).values()].map(views[view].flatten);
  const whole = boxOf([...all, ...(view === 'above' ? [] : [[0, 0] as const])], 0);
  const room = view === 'above' ? 60 : 260;
  const frame = frameOn(
    { ...whole, top: whole.top - room },
    inset.width - 2 * inset.padding,
    inset.height - 2 * inset.padding,
  );
  const corner = (x: number, y: number): Flat => {
    const origin = region.to([0, 0]);
    return frame.to([(x - origin[0]) / region.scale, (y - origin[1]) / region.scale]);
  };
  const [left, top] = corner(0, 0);
  const [right, bottom] = corner(region.width, region.height);
  const x = isRight ? region.width - inset.width - inset.margin : inset.margin;
  return (
    <g class="locator" transform={`translate(${x} ${inset.margin})`}>
      <rect class="inset" width={inset.width} height={inset.height} rx="10" />
      <g transform={`translate(${inset.padding} ${inset.padding})`}>
        <LineFigure report={report} view={view} frame={frame} without={new Set(Object.keys(report.markers))} />
        <rect
          class="zoom"
          x={svgNumber(left)}
          y={svgNumber(top)}
          width={svgNumber(right - left)}
          height={svgNumber(bottom - top)}
          rx="3"
        />
      </g>
    </g>
  );
}
