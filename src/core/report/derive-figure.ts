import type { Vec3 } from '../geometry/vector.ts';
import type { MarkerDefinition, SegmentDefinition } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { at } from '../rule-kinds/positions.ts';
import type { ReportedFigure } from './report.ts';

interface Placed {
  readonly marker: MarkerDefinition;
  readonly mm: Vec3;
}

type Join = readonly [string, string];

/**
 * Which markers a line figure joins, from the segments of the marker set and where the markers are, so that a
 * laboratory's own set is drawn as well as one that ships. Within a segment the markers on the skin are joined by
 * the shortest lines that connect them, those of a segment without a long axis (pelvis, trunk) round about; wands stand
 * off between the markers above and below them; and each segment is tied to the nearest one of its own side.
 */
export function deriveFigure({ set, geometry, positions }: StandingBody): ReportedFigure {
  const placed = set.markers.flatMap((marker, index): Placed[] =>
    geometry.has(marker.label) ? [{ marker, mm: at(positions, index * 3) }] : [],
  );
  const apart = separationOn(placed);
  const place = (point: string): Vec3 | null =>
    geometry.has(point) ? at(positions, geometry.lookup.point(point)) : null;
  const parts = set.segments.flatMap((segment) => {
    const on = placed.filter(({ marker }) => isOn(marker, segment));
    return on.length > 0 ? [{ segment, on, skin: on.filter(({ marker }) => marker.wandLengthMm === 0) }] : [];
  });

  const joins: Join[] = [];
  for (const { segment, on, skin } of parts) {
    joins.push(...(segment.side === 'midline' ? roundAbout(skin, apart) : shortestTree(skin, apart)));
    const ends = placed.filter(({ marker }) => marker.label === segment.longAxis?.to);
    for (const wand of on.filter(({ marker }) => marker.wandLengthMm > 0))
      joins.push(...between(wand, [...skin, ...ends], apart));
  }
  joins.push(
    ...ties(
      parts.map(({ segment, skin }) => ({ side: segment.side, skin })),
      apart,
    ),
  );

  return {
    joins: withoutRepeats(joins),
    segments: parts.map(({ segment, on }) => ({
      name: segment.name,
      side: segment.side,
      markers: on.map(({ marker }) => marker.label),
      longAxis: lineBetween(segment.longAxis, place),
      forward: lineBetween(segment.forward, place),
    })),
  };
}

function isOn(marker: MarkerDefinition, segment: SegmentDefinition): boolean {
  const stem = segment.side === 'midline' ? segment.name : segment.name.slice(0, -segment.side.length - 1);
  return marker.segment === stem && (segment.side === 'midline' || segment.side === marker.side);
}

function lineBetween(
  ends: { readonly from: string; readonly to: string } | null,
  place: (point: string) => Vec3 | null,
): { from: Vec3; to: Vec3 } | null {
  const from = ends && place(ends.from);
  const to = ends && place(ends.to);
  // A computed point that two markers on one spot do not give is no number.
  return from && to && [...from, ...to].every(Number.isFinite) ? { from, to } : null;
}

/** Markers of a broad segment, joined in the order in which they lie about its middle seen from above. */
function roundAbout(skin: readonly Placed[], apart: Separation): Join[] {
  if (skin.length < 3) return shortestTree(skin, apart);
  const middle = [0, 1].map((axis) => skin.reduce((sum, { mm }) => sum + mm[axis]!, 0) / skin.length);
  const bearing = ({ mm }: Placed): number => Math.atan2(mm[1] - middle[1]!, mm[0] - middle[0]!);
  const order = [...skin].sort((a, b) => bearing(a) - bearing(b));
  return order.map((from, index): Join => [from.marker.label, order[(index + 1) % order.length]!.marker.label]);
}

function shortestTree(skin: readonly Placed[], apart: Separation): Join[] {
  const [first, ...rest] = skin;
  if (first === undefined) return [];
  const reached = [first];
  const joins: Join[] = [];
  while (rest.length > 0) {
    const { from, to } = nearest(reached, rest, apart)!;
    joins.push([from.marker.label, to.marker.label]);
    reached.push(to);
    rest.splice(rest.indexOf(to), 1);
  }
  return joins;
}

function between(wand: Placed, skin: readonly Placed[], apart: Separation): Join[] {
  const above = skin.filter(({ mm }) => mm[2] >= wand.mm[2]);
  const below = skin.filter(({ mm }) => mm[2] < wand.mm[2]);
  return [above, below].flatMap((candidates): Join[] => {
    const found = nearest([wand], candidates, apart);
    return found ? [[found.to.marker.label, wand.marker.label]] : [];
  });
}

interface Part {
  readonly side: SegmentDefinition['side'];
  readonly skin: readonly Placed[];
}

/** Ties between segments, the shortest first, until all that may be tied are: right and left only over the midline. */
function ties(parts: readonly Part[], apart: Separation): Join[] {
  const group = parts.map((_, index) => index);
  const joins: Join[] = [];
  const candidates = parts
    .flatMap((a, i) => parts.slice(i + 1).map((b, k) => ({ i, j: i + 1 + k, tie: tieOf(a, b, apart) })))
    .flatMap(({ i, j, tie }) => (tie ? [{ i, j, tie }] : []))
    .sort((a, b) => a.tie.distance - b.tie.distance);
  for (const { i, j, tie } of candidates) {
    if (group[i] === group[j]) continue;
    const [kept, merged] = [group[i]!, group[j]!];
    group.forEach((value, index) => {
      if (value === merged) group[index] = kept;
    });
    joins.push([tie.from.marker.label, tie.to.marker.label]);
    // Two markers and the one they hang on make a triangle, which is seen as a foot; a single line is not.
    if (parts[j]!.skin.length === 2 && parts[j]!.side !== 'midline') {
      joins.push(...parts[j]!.skin.map(({ marker }): Join => [tie.from.marker.label, marker.label]));
    }
  }
  return joins;
}

function tieOf(a: Part, b: Part, apart: Separation): Nearest | null {
  const bothMiddle = a.side === 'midline' && b.side === 'midline';
  if (a.side !== b.side && a.side !== 'midline' && b.side !== 'midline') return null;
  // The spine is drawn along the middle where markers of the middle allow it.
  const onMiddle = ({ marker }: Placed): boolean => marker.side === 'midline';
  const along = bothMiddle ? nearest(a.skin.filter(onMiddle), b.skin.filter(onMiddle), apart) : null;
  return along ?? nearest(a.skin, b.skin, apart);
}

/** How far apart two markers count. */
type Separation = (a: Placed, b: Placed) => number;

/** Limbs run up and down, so that a step sideways counts more. */
const sidewaysWeight = 1.5;

/** The mean over both sides where both show the pair, so that right and left are joined alike. */
function separationOn(placed: readonly Placed[]): Separation {
  const byLabel = new Map(placed.map((one) => [one.marker.label, one]));
  const mirrored = ({ marker }: Placed) => byLabel.get(marker.mirror ?? marker.label);
  const far = (a: Placed, b: Placed): number =>
    Math.hypot(a.mm[0] - b.mm[0], sidewaysWeight * (a.mm[1] - b.mm[1]), a.mm[2] - b.mm[2]);
  return (a, b) => {
    const [c, d] = [mirrored(a), mirrored(b)];
    return c && d ? (far(a, b) + far(c, d)) / 2 : far(a, b);
  };
}

interface Nearest {
  readonly from: Placed;
  readonly to: Placed;
  readonly distance: number;
}

function nearest(from: readonly Placed[], to: readonly Placed[], apart: Separation): Nearest | null {
  let best: Nearest | null = null;
  for (const a of from) {
    for (const b of to) {
      const distance = apart(a, b);
      if (best === null || distance < best.distance) best = { from: a, to: b, distance };
    }
  }
  return best;
}

function withoutRepeats(joins: readonly Join[]): Join[] {
  const seen = new Set<string>();
  return joins.filter((join) => {
    const key = JSON.stringify([...join].sort());
    return seen.has(key) ? false : seen.add(key);
  });
}
