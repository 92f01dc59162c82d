import type { SegmentMarkers } from '../compare/segment-markers.ts';
import { fitRigidly, moved, type RigidMotion } from '../geometry/rigid-fit.ts';
import { dot, subtract, type Vec3 } from '../geometry/vector.ts';
import type { MarkerDefinition, MarkerSet } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { at } from '../rule-kinds/positions.ts';
import { type HeldPoint, holdSegment } from './hold-segment.ts';

/** Where one marker of a segment lies in the captures of one subject. */
export interface MarkerShape {
  readonly marker: MarkerDefinition;
  /** Mean place, along the segment's forward, up and outward, from the middle of what holds it; mm. */
  readonly there: Vec3;
  /** Deviation from it in each capture, once the segment is brought back; null where the marker is not seen. */
  readonly left: readonly (Vec3 | null)[];
  /** Whether it is one of those that hold the segment. */
  readonly holds: boolean;
  /**
   * Share of a deviation that is taken for a motion of the segment, 0 to 1. For a marker that does not hold it: the
   * variance of the segment's motion there, over that of such a marker.
   */
  readonly leverage: Vec3;
}

/** Marker positions in body axes. */
export type Places = ReadonlyMap<string, Vec3>;

/** A marker of a neighbouring bone moves against this one, however well it is placed; mm. */
const lentMoveMm = 5;
const rounds = 6;
export const segmentDirections = ['forward', 'up', 'outward'] as const;

/**
 * Brings a segment of every capture of a subject onto its mean shape. It is held by its palpated markers and those lent to
 * it, each by how precisely such a marker is placed; markers set by eye follow the others, and hold nothing.
 * @returns null where the markers do not hold it
 */
export function subjectShape(
  { segment, own: heldOwn, lent }: SegmentMarkers,
  own: readonly MarkerDefinition[],
  set: MarkerSet,
  captures: readonly { readonly body: StandingBody; readonly places: Places }[],
): MarkerShape[] | null {
  const isPalpated = (label: string): boolean =>
    set.markers.find((marker) => marker.label === label)!.placedBy === 'palpation';
  const holders = [...heldOwn, ...lent].filter(isPalpated);
  if (holders.length < 3) return null;
  const axes = axesOf(captures[0]!.body, segment);
  const along = (point: Vec3): Vec3 => axes.map((axis) => dot(point, axis)) as unknown as Vec3;
  const scatters = holders.map((label) => scatterOf(set, label, lent.includes(label)));
  const weights = scatters.map(([a, b, c]) => 3 / (a * a + b * b + c * c));
  const shapes = captures.map(({ places }) => holders.map((label) => along(places.get(label)!)));
  const { mean, fitted, motions } = ontoTheirMean(shapes, weights);
  const middle = meanPoint(mean);
  const points = mean.map((point, index): HeldPoint => ({ at: subtract(point, middle), scatterMm: scatters[index]! }));
  const hold = holdSegment(points);
  if (hold === null) return null;
  const off = fitted.map((shape) => shape.map((point, index) => subtract(point, mean[index]!)));
  return own.map((marker): MarkerShape => {
    const held = holders.indexOf(marker.label);
    const seen = captures.map(({ places }, index) => {
      const place = places.get(marker.label);
      return place === undefined ? null : subtract(moved(motions[index]!, along(place)), middle);
    });
    const there = meanPoint(seen.filter((place) => place !== null));
    const left = seen.map((place, index) => {
      if (place === null) return null;
      return held < 0
        ? subtract(subtract(place, there), hold.motionAt(off[index]!, there))
        : hold.left(off[index]!)[held]!;
    });
    return {
      marker,
      there,
      left,
      holds: held >= 0,
      leverage: hold.leverage(there, scatterOf(set, marker.label, false)),
    };
  });
}

/** Shapes brought onto their own mean, which is found with them; the mean lies as the first of them does. */
function ontoTheirMean(
  shapes: readonly (readonly Vec3[])[],
  weights: readonly number[],
): { mean: Vec3[]; fitted: Vec3[][]; motions: RigidMotion[] } {
  let mean = [...shapes[0]!];
  let motions: RigidMotion[] = [];
  let fitted: Vec3[][] = [];
  for (let round = 0; round < rounds; round++) {
    motions = shapes.map((shape) => fitRigidly(shape, mean, weights));
    fitted = shapes.map((shape, index) => shape.map((point) => moved(motions[index]!, point)));
    mean = mean.map((_, index) => meanPoint(fitted.map((shape) => shape[index]!)));
  }
  return { mean, fitted, motions };
}

/** Forward, up and outward of a segment (left for one of the middle), in the body axes of a capture. */
function axesOf(body: StandingBody, segment: string): Vec3[] {
  const { side } = body.set.segments.find(({ name }) => name === segment)!;
  return segmentDirections.map((axis) => at(body.positions, body.geometry.lookup.axis(segment, axis, side)) as Vec3);
}

function scatterOf(set: MarkerSet, label: string, isLent: boolean): Vec3 {
  const { scatterMm } = set.markers.find((marker) => marker.label === label)!;
  const more = isLent ? lentMoveMm : 0;
  return segmentDirections.map((direction) => Math.max(0.5, Math.hypot(scatterMm[direction], more))) as unknown as Vec3;
}

function meanPoint(points: readonly Vec3[]): Vec3 {
  return [0, 1, 2].map((axis) => points.reduce((sum, point) => sum + point[axis]!, 0) / points.length) as Vec3;
}
