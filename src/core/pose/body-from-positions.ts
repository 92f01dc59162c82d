import type { Vec3 } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { Session } from '../session/session.ts';
import { findFacing } from './facing.ts';
import { type StandingBody, standBody } from './standing-body.ts';
import { layOutGeometry } from './subject-geometry.ts';

/**
 * A body whose marker positions are known without a trial: no sway, every marker visible.
 * @param positionOf lab position of a marker, mm, Z up and the floor at 0; undefined for one that is not on
 * @returns null where the markers do not tell which way the body faces
 */
export function bodyFromPositions(
  set: MarkerSet,
  session: Session,
  positionOf: (label: string) => Readonly<Vec3> | undefined,
): StandingBody | null {
  const count = set.markers.length;
  const means = new Float64Array(count * 3).fill(Number.NaN);
  const visible = new Float64Array(count);
  set.markers.forEach((marker, index) => {
    const position = positionOf(marker.label);
    if (position === undefined) return;
    means.set(position, index * 3);
    visible[index] = 1;
  });
  const up: Vec3 = [0, 0, 1];
  const facing = findFacing(means, set, up);
  if (facing === null) return null;
  const geometry = layOutGeometry(set, session, means, up, facing.left, 0);
  const averaged = { means, sdMm: new Float64Array(count), visible, jumps: new Int32Array(count), parts: [means] };
  return standBody(set, geometry, averaged, false);
}
