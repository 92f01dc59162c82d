import { distance } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import { at } from '../rule-kinds/positions.ts';
import type { StudyCapture } from './study-capture.ts';

/** How far apart two markers of one segment are, in every capture; mm. */
export interface DistanceValues {
  readonly markers: readonly [string, string];
  readonly segment: string;
  readonly values: readonly (number | null)[];
}

/** Distances between markers of one segment: no frame is in them, and posture hardly. */
export function distanceValues(set: MarkerSet, captures: readonly StudyCapture[]): DistanceValues[] {
  return set.segments.flatMap(({ name }) => {
    const own = set.markers.filter(
      ({ segment, side, label }) =>
        (segment === name || `${segment}.${side}` === name) && captures.some(({ body }) => body.geometry.has(label)),
    );
    return own.flatMap((first, index) =>
      own.slice(index + 1).map((second): DistanceValues => {
        const markers = [first.label, second.label] as const;
        return { markers, segment: name, values: captures.map(({ body }) => between(body, markers)) };
      }),
    );
  });
}

function between(
  { geometry, positions }: StudyCapture['body'],
  [first, second]: readonly [string, string],
): number | null {
  if (!geometry.has(first) || !geometry.has(second)) return null;
  return distance(at(positions, geometry.lookup.point(first)), at(positions, geometry.lookup.point(second)));
}
