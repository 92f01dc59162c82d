import type { Vec3 } from '../geometry/vector.ts';
import type { StandingBody } from './standing-body.ts';

/** Where each marker that is on lies in body axes: forward, left, up; mm. */
export function markerPositions({ set, geometry, positions }: StandingBody): Map<string, Vec3> {
  const on = set.markers.filter(({ label }) => geometry.has(label));
  return new Map(
    on.map(({ label }): [string, Vec3] => {
      const slot = geometry.lookup.point(label);
      return [label, [positions[slot]!, positions[slot + 1]!, positions[slot + 2]!]];
    }),
  );
}
