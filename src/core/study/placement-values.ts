import { segmentMarkers } from '../compare/segment-markers.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { MarkerDefinition, MarkerSet } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { at } from '../rule-kinds/positions.ts';
import type { StudyCapture } from './study-capture.ts';
import { type MarkerShape, type Places, segmentDirections, subjectShape } from './subject-shape.ts';

/** Away from the midline for a marker of a side, to the left for one of the middle. */
export type PlacementDirection = 'forward' | 'up' | 'outward' | 'left';

/** Where one marker sits on its segment along one direction, in every capture. */
export interface PlacementValues {
  readonly marker: string;
  readonly segment: string;
  readonly direction: PlacementDirection;
  /** In the order of the captures, mm from the middle of the segment's markers; null where the marker is not seen. */
  readonly values: readonly (number | null)[];
  /** Share of a deviation that is taken for a motion of the segment: mean over the subjects. */
  readonly leverage: number;
  /** Whether what is left tells of this marker more than of the others. */
  readonly isTold: boolean;
  /** What a difference of the values, times this, is on the skin. */
  readonly toShift: number;
}

/** Above this a deviation is nearly all taken for a motion of the segment, and what is left tells the others' errors. */
const mostLeverage = 0.8;
/** A marker that does not hold its segment is told where the segment is held much better than such a marker is placed. */
const mostMotion = 0.5;

/**
 * Where each marker sits on its segment in each capture of a study. All markers were placed anew each time, so nothing
 * holds still: for each subject the segment of every capture is brought onto its mean shape. What is left of a marker's
 * deviation is smaller than the deviation was, by the share that was taken for a motion of the segment (its leverage h);
 * it is brought back to size by 1 / sqrt(1 - h), so that its variance is the marker's own where the set's scatters stand in
 * the right proportion (Horn, Horn and Duncan 1975, J Am Stat Assoc 70:380-385: almost unbiased estimators; from memory).
 * A marker that does not hold its segment is told as it lies, with what it followed.
 */
export function placementValues(set: MarkerSet, captures: readonly StudyCapture[]): PlacementValues[] {
  const places = captures.map(({ body }) => placesOf(body));
  const first = places[0];
  if (first === undefined) return [];
  const common = new Map([...first].filter(([label]) => places.every((one) => one.has(label))));
  const subjects = [...new Set(captures.map(({ subject }) => subject))].map((subject) =>
    captures.flatMap((capture, index) => (capture.subject === subject ? [index] : [])),
  );
  return segmentMarkers(set, common).flatMap((held) => {
    const own = set.markers.filter(
      ({ segment, side, label }) =>
        (segment === held.segment || `${segment}.${side}` === held.segment) && places.some((one) => one.has(label)),
    );
    const shapes = subjects.flatMap((indices): Held[] => {
      const seen = indices.map((index) => ({ body: captures[index]!.body, places: places[index]! }));
      const markers = subjectShape(held, own, set, seen);
      return markers === null ? [] : [{ indices, markers }];
    });
    if (shapes.length < subjects.length) return [];
    return own.flatMap((marker, which) => valuesOf(marker, which, held.segment, shapes, captures.length));
  });
}

interface Held {
  readonly indices: readonly number[];
  readonly markers: readonly MarkerShape[];
}

function valuesOf(
  { label, side }: MarkerDefinition,
  which: number,
  segment: string,
  shapes: readonly Held[],
  count: number,
): PlacementValues[] {
  const { holds } = shapes[0]!.markers[which]!;
  return segmentDirections.map((direction, axis): PlacementValues => {
    const leverage = shapes.reduce((sum, { markers }) => sum + markers[which]!.leverage[axis]!, 0) / shapes.length;
    const size = (h: number): number => (holds ? 1 / Math.sqrt(Math.max(1e-6, 1 - h)) : 1);
    const values = new Array<number | null>(count).fill(null);
    // Outward on a segment of the middle is to the left.
    const way = direction === 'outward' && side === 'right' && !segment.endsWith('.right') ? -1 : 1;
    for (const { indices, markers } of shapes) {
      const { there, left, leverage: own } = markers[which]!;
      indices.forEach((index, position) => {
        const off = left[position] ?? null;
        if (off !== null) values[index] = way * (there[axis]! + off[axis]! * size(own[axis]!));
      });
    }
    return {
      marker: label,
      segment,
      direction: direction === 'outward' && side === 'midline' ? 'left' : direction,
      values,
      leverage,
      isTold: leverage <= (holds ? mostLeverage : mostMotion),
      toShift: size(leverage),
    };
  });
}

function placesOf({ set, geometry, positions }: StandingBody): Places {
  const on = set.markers.filter(({ label }) => geometry.has(label));
  return new Map(on.map(({ label }) => [label, at(positions, geometry.lookup.point(label)) as Vec3]));
}
