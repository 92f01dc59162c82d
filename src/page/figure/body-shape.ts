import type { ReportedFigure } from '../../core/report/report.ts';
import { circlePath, hullPath, limbPath } from './flat-shapes.ts';
import { type DrawnPatient, type Frame, farSide, type Place, placesOf, type View, views } from './views.ts';

/** One part of the pale body behind the line figure; `widen` is a stroke that rounds and thickens it, picture units. */
export interface BodyPart {
  readonly side: 'right' | 'left' | 'midline';
  /** Drawn first and fainter: what lies on the side away from the viewer, and from above the pelvis under the feet. */
  readonly isFar: boolean;
  readonly path: string;
  readonly widen: number;
}

type Segment = ReportedFigure['segments'][number];

/**
 * A pale body for the eye to find its way: limbs about the long axes of the segments, feet about their lines, pelvis
 * and trunk about their markers. Only its axes are measured; its thickness is of usual proportion (from memory) and
 * says nothing.
 */
export function bodyShape(report: DrawnPatient, view: View, frame: Frame): BodyPart[] {
  const { figure } = report;
  if (figure === null) return [];
  const places = placesOf(report);
  const { flatten } = views[view];
  const to = (place: Place) => frame.to(flatten(place));
  const hips = figure.segments.flatMap(({ longAxis }) => (longAxis ? [longAxis.to] : []));
  const hipHeight = Math.max(300, ...hips.map(([, , up]) => up), ...(hips.length === 0 ? heights(places) : []));
  const thickness = (up: number): number => hipHeight * (0.036 + 0.047 * Math.min(1.1, Math.max(0, up / hipHeight)));
  const parts: BodyPart[] = [];

  const limb = (side: BodyPart['side'], from: Place, fromMm: number, end: Place, endMm: number): void => {
    const path = limbPath(to(from), fromMm * frame.scale, to(end), endMm * frame.scale);
    parts.push({ side, isFar: side === farSide(view), path, widen: 0 });
  };
  // From above, the trunk and the legs would only hide pelvis and feet.
  const isAbove = view === 'above';
  for (const { side, longAxis } of figure.segments) {
    if (longAxis === null || isAbove) continue;
    const [low, high] = [longAxis.from, longAxis.to].map((end) => jointMiddle(end, side, places, thickness));
    limb(side, low!, thickness(low![2]), high!, thickness(high![2]));
  }
  for (const { side, forward } of figure.segments) {
    if (forward === null) continue;
    const ankle = lowestEnd(figure.segments, side);
    const { heel, toe } = footOf(forward, side, hipHeight);
    limb(side, heel, 0.036 * hipHeight, toe, 0.028 * hipHeight);
    if (ankle === null || isAbove) continue;
    const middle = jointMiddle(ankle, side, places, thickness);
    const instep: Place = [0, 1, 2].map((axis) => 0.45 * heel[axis]! + 0.55 * toe[axis]!) as unknown as Place;
    limb(side, middle, 0.037 * hipHeight, heel, 0.036 * hipHeight);
    limb(side, middle, 0.037 * hipHeight, instep, 0.036 * hipHeight);
  }
  const blocks = figure.segments
    .filter(({ longAxis, forward }) => longAxis === null && forward === null)
    .map(({ markers }) => markers.map((label) => places.get(label)).filter((place) => place !== undefined))
    .filter((found) => found.length > 0)
    .sort((a, b) => meanHeight(a) - meanHeight(b));
  blocks.slice(0, isAbove ? 1 : blocks.length).forEach((block, index) => {
    const below = index === 0 ? hips.filter(([, , up]) => up > 0.8 * hipHeight) : blocks[index - 1]!;
    parts.push({
      side: 'midline',
      isFar: isAbove,
      path: hullPath([...block, ...below].map(to)),
      widen: 0.085 * hipHeight * frame.scale,
    });
  });
  return isAbove ? parts : [...parts, ...headOn(report, blocks.at(-1) ?? [], hipHeight, view, frame)];
}

function heights(places: ReadonlyMap<string, Place>): number[] {
  return [...places.values()].map(([, , up]) => up);
}

function meanHeight(places: readonly Place[]): number {
  return places.reduce((sum, [, , up]) => sum + up, 0) / places.length;
}

/** A long axis ends at a marker on the skin: the joint lies half-way to the one on its other side, or about there. */
function jointMiddle(
  end: Place,
  side: BodyPart['side'],
  places: ReadonlyMap<string, Place>,
  thickness: (up: number) => number,
): Place {
  const all = [...places.values()];
  if (!all.some((place) => distance(place, end) < 1)) return end;
  const reach = 2.6 * thickness(end[2]);
  const inward = side === 'right' ? 1 : -1;
  const facing = all.filter((place) => {
    const across = inward * (place[1] - end[1]);
    return across > 0.4 * reach && across < reach && Math.abs(place[2] - end[2]) < 0.4 * reach;
  });
  const [other] = facing.sort((a, b) => distance(a, end) - distance(b, end));
  return other
    ? ([0, 1, 2].map((axis) => (end[axis]! + other[axis]!) / 2) as unknown as Place)
    : [end[0], end[1] + inward * thickness(end[2]), end[2]];
}

function distance(a: Place, b: Place): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

function lowestEnd(segments: readonly Segment[], side: Segment['side']): Place | null {
  const ends = segments.flatMap((segment) =>
    segment.side === side && segment.longAxis ? [segment.longAxis.from] : [],
  );
  return ends.sort((a, b) => a[2] - b[2])[0] ?? null;
}

/** Heel and toes, near the floor; the line ends at the forefoot, so the toes lie a little further and more inward. */
function footOf({ from, to }: NonNullable<Segment['forward']>, side: Segment['side'], hipHeight: number) {
  const inward = side === 'right' ? 1 : -1;
  const heel: Place = [from[0] + 0.03 * hipHeight, from[1], 0.036 * hipHeight];
  const toe: Place = [
    to[0] + 0.2 * (to[0] - from[0]),
    to[1] + 0.2 * (to[1] - from[1]) + inward * 0.035 * hipHeight,
    0.028 * hipHeight,
  ];
  return { heel, toe };
}

/** A head over a neck marker, for telling front from back at a glance; none where the set has no marker up there. */
function headOn(
  { markers }: DrawnPatient,
  block: readonly Place[],
  hipHeight: number,
  view: View,
  frame: Frame,
): BodyPart[] {
  const middles = Object.values(markers).flatMap(({ side, mm }) => (side === 'midline' ? [mm] : []));
  const neck = block.filter((place) => middles.includes(place as never)).sort((a, b) => b[2] - a[2])[0];
  if (neck === undefined || neck[2] < 1.2 * hipHeight) return [];
  const to = (forward: number, up: number) =>
    frame.to(views[view].flatten([neck[0] + forward * hipHeight, neck[1], neck[2] + up * hipHeight]));
  const size = hipHeight * frame.scale;
  return [
    {
      side: 'midline',
      isFar: false,
      path: limbPath(to(0.055, -0.02), 0.06 * size, to(0.075, 0.1), 0.052 * size),
      widen: 0,
    },
    {
      side: 'midline',
      isFar: false,
      path: limbPath(to(0.075, 0.18), 0.092 * size, to(0.095, 0.115), 0.066 * size),
      widen: 0,
    },
    { side: 'midline', isFar: false, path: circlePath(to(0.17, 0.145), 0.02 * size), widen: 0 },
  ];
}
