import type { Joint } from '../gait-model/standing-angles.ts';
import type { SideOrMiddle } from '../marker-set/marker-set.ts';
import { type StandingBody, withMarkersAt } from '../pose/standing-body.ts';
import { reportAngles } from '../report/report-angles.ts';
import type { Session } from '../session/session.ts';
import { placedAsBefore } from './placement-differences.ts';

/** A joint angle in standing in one capture against another, degrees. */
export interface JointAngleDifference {
  readonly joint: Joint;
  readonly motion: string;
  readonly side: SideOrMiddle;
  readonly before: number;
  readonly now: number;
  /**
   * What the placement makes of the difference: the angle now, less the angle of the same stance with each marker where it
   * sat on its segment before. The rest is how the person stood, and a segment that turned with all of its markers.
   */
  readonly fromPlacing: number;
}

/** One capture, with what was recorded of the patient. */
export interface RecordedBody {
  readonly body: StandingBody;
  readonly recorded: Session;
}

/**
 * Joint angles by the lower-body model of the set; empty where it names none. An angle that one capture lacks is left out.
 * @param loose markers that a step asked to move
 */
export function jointAngleDifferences(
  before: RecordedBody,
  now: RecordedBody,
  loose: ReadonlySet<string>,
): JointAngleDifference[] {
  const { set } = before.body;
  const then = reportAngles(before.body, set, before.recorded)?.values ?? [];
  const today = reportAngles(now.body, set, now.recorded)?.values ?? [];
  const back = withMarkersAt(now.body, placedAsBefore(before.body, now.body, loose));
  const stance = reportAngles(back, set, now.recorded)?.values ?? [];
  return then.flatMap(({ joint, motion, side, deg }): JointAngleDifference[] => {
    const same = (one: { joint: Joint; motion: string; side: SideOrMiddle }): boolean =>
      one.joint === joint && one.motion === motion && one.side === side;
    const is = today.find(same);
    const stood = stance.find(same);
    if (is === undefined || stood === undefined) return [];
    return [{ joint, motion, side, before: deg, now: is.deg, fromPlacing: is.deg - stood.deg }];
  });
}
