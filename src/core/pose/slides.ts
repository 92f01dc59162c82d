import type { Vec3 } from '../geometry/vector.ts';
import type { BodyDirection, MarkerDefinition } from '../marker-set/marker-set.ts';
import { at } from '../rule-kinds/positions.ts';
import type { StandingBody } from './standing-body.ts';

/** One way along the skin in which a marker can be corrected. */
export interface Slide {
  readonly direction: BodyDirection;
  /** Unit vector in body axes. */
  readonly vector: Vec3;
}

/**
 * The directions along the skin of a marker's segment. A wand goes round the bone: square to the long axis and to
 * the line from the axis to its tip.
 */
export function slidesOf(body: StandingBody, marker: MarkerDefinition): Slide[] {
  const axis = (name: 'forward' | 'up' | 'outward'): Vec3 => at(body.positions, axisSlot(body, marker, name));
  // Outward on a segment of the midline, such as the pelvis, is to the left; a right marker's outward is not.
  const isTurned = marker.side === 'right' && segmentOf(body, marker).side === 'midline';
  return marker.slides.map((direction) => {
    if (direction === 'left') return { direction, vector: [0, 1, 0] };
    if (direction === 'forward' && marker.wandLengthMm > 0) return { direction, vector: roundTheBone(body, marker) };
    const vector = axis(direction);
    return { direction, vector: direction === 'outward' && isTurned ? [-vector[0], -vector[1], -vector[2]] : vector };
  });
}

/** From the segment's long axis to the marker, square to the axis; body axes, mm. */
export function radiusOf(body: StandingBody, marker: MarkerDefinition): Vec3 {
  const up = at(body.positions, axisSlot(body, marker, 'up'));
  const segment = segmentOf(body, marker);
  const foot = at(body.positions, body.geometry.lookup.point(segment.longAxis!.from));
  const point = at(body.positions, body.geometry.lookup.point(marker.label));
  const from: Vec3 = [point[0] - foot[0], point[1] - foot[1], point[2] - foot[2]];
  const along = from[0] * up[0] + from[1] * up[1] + from[2] * up[2];
  return [from[0] - along * up[0], from[1] - along * up[1], from[2] - along * up[2]];
}

function roundTheBone(body: StandingBody, marker: MarkerDefinition): Vec3 {
  const up = at(body.positions, axisSlot(body, marker, 'up'));
  const radius = radiusOf(body, marker);
  const tangent: Vec3 = [
    up[1] * radius[2] - up[2] * radius[1],
    up[2] * radius[0] - up[0] * radius[2],
    up[0] * radius[1] - up[1] * radius[0],
  ];
  const forward = at(body.positions, axisSlot(body, marker, 'forward'));
  const ahead = tangent[0] * forward[0] + tangent[1] * forward[1] + tangent[2] * forward[2];
  const size = Math.hypot(...tangent) * (ahead < 0 ? -1 : 1);
  return [tangent[0] / size, tangent[1] / size, tangent[2] / size];
}

function segmentOf(body: StandingBody, marker: MarkerDefinition) {
  return body.set.segments.find(
    (segment) => segment.name === marker.segment || segment.name === `${marker.segment}.${marker.side}`,
  )!;
}

function axisSlot(body: StandingBody, marker: MarkerDefinition, axis: 'forward' | 'up' | 'outward'): number {
  return body.geometry.lookup.axis(segmentOf(body, marker).name, axis, marker.side);
}
