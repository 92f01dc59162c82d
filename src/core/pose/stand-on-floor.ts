import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { Session } from '../session/session.ts';
import type { StandingPose } from './find-standing-pose.ts';
import { type StandingBody, standBody } from './standing-body.ts';
import { layOutGeometry } from './subject-geometry.ts';

/** Marker centres this far above the lab's zero, mm, may stand on a floor at zero. */
const onLabFloorMm = { low: 0, high: 150 } as const;

/**
 * The still body in its own axes; null where neither marker of the levelled line across the pelvis is visible, so
 * that nothing has a place. The floor is the lab's zero where the lowest marker says that it can be: an origin on which no
 * rule depends. Whoever needs heights above the real floor has to doubt it (core/sheet-against-trial).
 */
export function standOnFloor(pose: StandingPose, set: MarkerSet, session: Session): StandingBody | null {
  const { averaged, vertical, facing } = pose;
  const { means } = averaged;
  const isSeen = (label: string): boolean =>
    !Number.isNaN(means[set.markers.findIndex((marker) => marker.label === label) * 3]!);
  if (!isSeen(set.bodyAxes.right) && !isSeen(set.bodyAxes.left)) return null;
  let lowest = Number.POSITIVE_INFINITY;
  for (let at = 0; at < means.length; at += 3) {
    const height = means[at]! * vertical.up[0] + means[at + 1]! * vertical.up[1] + means[at + 2]! * vertical.up[2];
    if (height < lowest) lowest = height;
  }
  const floorUp =
    lowest >= onLabFloorMm.low && lowest <= onLabFloorMm.high ? 0 : lowest - set.bodyAxes.floorBelowLowestMm;
  const geometry = layOutGeometry(set, session, means, vertical.up, facing.left, floorUp);
  return standBody(set, geometry, averaged, pose.restless);
}
