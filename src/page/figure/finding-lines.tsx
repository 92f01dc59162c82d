import type { ReportedRule } from '../../core/report/report.ts';
import { type Flat, type Frame, type Place, svgNumber, type View, views } from './views.ts';

interface FindingLinesProps {
  readonly view: View;
  readonly frame: Frame;
  readonly findings: readonly ReportedRule[];
}

interface DrawnLine {
  readonly from: Flat;
  readonly end: Flat;
  readonly kind: 'line' | 'plane';
}

/** A plane shows as a line only to who looks along it, more or less. */
const edgeOn = 0.75;
/** A line this short in a picture shows nothing. */
const leastLength = 10;
/** A plane's line goes this far beyond what it was drawn from, mm. */
const beyondMm = 60;

/** Lines that the rules compare, and planes seen edge-on, each with the number of its finding. */
export function FindingLines({ view, frame, findings }: FindingLinesProps) {
  const tags: Flat[] = [];
  return (
    <g>
      {findings.map((rule, index) => {
        const drawn = linesOf(rule, view, frame);
        if (drawn.length === 0) return null;
        const tag = freePlace(drawn[0]!, tags);
        tags.push(tag);
        return (
          <g class={`found ${rule.status}`}>
            <Lines drawn={drawn} />
            <circle class="tag" cx={svgNumber(tag[0])} cy={svgNumber(tag[1])} r="12" />
            <text class="tag" x={svgNumber(tag[0])} y={svgNumber(tag[1] + 5)} text-anchor="middle">
              {index + 1}
            </text>
          </g>
        );
      })}
    </g>
  );
}

/** The planes on which a marker is expected, as quiet lines without a number. */
export function ExpectedPlanes({ view, frame, findings }: FindingLinesProps) {
  return (
    <g class="expected-plane">
      {findings.map((rule) => (
        <Lines drawn={linesOf(rule, view, frame).filter(({ kind }) => kind === 'plane')} />
      ))}
    </g>
  );
}

function Lines({ drawn }: { readonly drawn: readonly DrawnLine[] }) {
  return (
    <>
      {drawn.map(({ from, end, kind }) => (
        <line
          class={kind}
          x1={svgNumber(from[0])}
          y1={svgNumber(from[1])}
          x2={svgNumber(end[0])}
          y2={svgNumber(end[1])}
        />
      ))}
    </>
  );
}

function linesOf({ geometry }: ReportedRule, view: View, frame: Frame): DrawnLine[] {
  const to = (place: readonly number[]): Flat => frame.to(views[view].flatten(place as unknown as Place));
  const lines = (geometry?.lines ?? []).map(
    (line): DrawnLine => ({ from: to(line.from), end: to(line.to), kind: 'line' }),
  );
  const planes = (geometry?.planes ?? [])
    .filter((plane) => isEdgeOn(plane.view, view))
    .map(({ at, along }) => planeLine(at, along, to));
  return [...lines, ...planes].filter(({ from, end }) => Math.hypot(end[0] - from[0], end[1] - from[1]) > leastLength);
}

function isEdgeOn(sight: readonly number[], view: View): boolean {
  return Math.abs(views[view].nearness(sight as unknown as Place)) >= edgeOn * Math.hypot(...sight);
}

function planeLine(at: readonly number[], along: readonly number[], to: (place: readonly number[]) => Flat): DrawnLine {
  const size = Math.hypot(...along);
  const place = (mm: number): Flat => to(at.map((value, axis) => value + (along[axis]! / size) * mm));
  return { from: place(-beyondMm), end: place(Math.max(size, 160) + beyondMm), kind: 'plane' };
}

/** A place beside the line for its number, away from the numbers that are there already. */
function freePlace({ from, end }: DrawnLine, taken: readonly Flat[]): Flat {
  const across: Flat = [end[0] - from[0], end[1] - from[1]];
  const length = Math.hypot(...across) || 1;
  const places = [18, -18, 40, -40].flatMap((aside) =>
    [0.5, 0.3, 0.7, 0.1, 0.9].map(
      (share): Flat => [
        from[0] + share * across[0] - (across[1] / length) * aside,
        from[1] + share * across[1] + (across[0] / length) * aside,
      ],
    ),
  );
  const isFree = (place: Flat): boolean =>
    taken.every((other) => Math.hypot(place[0] - other[0], place[1] - other[1]) > 26);
  return places.find(isFree) ?? places[0]!;
}
