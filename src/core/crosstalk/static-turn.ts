import { calibrateLowerBody, readLeg } from '../gait-model/lower-body-model.ts';
import { dot } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { Report } from '../report/report.ts';
import { degreesPerRadian, outwardSign } from '../rule-kinds/positions.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import type { Session } from '../session/session.ts';

/** What the steps of the static report say of a knee axis. */
export interface StaticTurn {
  /** By how much they find it turned outward, degrees; 0 where no step touches it. */
  readonly turnDeg: number;
  /** Markers of those steps that turn it. */
  readonly markers: readonly string[];
}

/** A step that turns the axis by less than this is about something else. */
const touchesDeg = 0.5;

/**
 * By how much the knee axis would have been turned wrongly, if every marker were where the steps of the static report
 * expect it: the model is calibrated again on the markers so moved, and its thigh compared with the one as marked.
 * @param standing marker positions in body axes, mm; index marker * 3
 */
export function staticTurn(
  side: Side,
  set: MarkerSet,
  session: Session,
  standing: Float64Array,
  report: Report,
): StaticTurn {
  const moved = standing.slice();
  const markers: string[] = [];
  let turnDeg = 0;
  for (const { marker, mm } of report.moves) {
    const index = set.markers.findIndex(({ label }) => label === marker);
    if (index < 0 || mm === undefined) continue;
    const left =
      'left' in mm ? mm.left : mm.outward * outwardSign(set.markers[index]!.side === 'right' ? 'right' : 'left');
    moved[index * 3]! += mm.forward;
    moved[index * 3 + 1]! += left;
    moved[index * 3 + 2]! += mm.up;
    const next = turnFrom(side, set, session, standing, moved);
    if (next === null) continue;
    if (Math.abs(next - turnDeg) >= touchesDeg) markers.push(marker!);
    turnDeg = next;
  }
  return { turnDeg, markers };
}

/** How far outward the axis as marked is turned from the axis with the markers moved, degrees. */
function turnFrom(
  side: Side,
  set: MarkerSet,
  session: Session,
  marked: Float64Array,
  moved: Float64Array,
): number | null {
  const thigh = (markers: Float64Array) =>
    readLeg(calibrateLowerBody(set, session, markers, [0, 0, 1]), side, markers)?.thigh ?? null;
  const [now, right] = [thigh(marked), thigh(moved)];
  if (now === null || right === null) return null;
  // Turned outward, the outer end of the axis goes backward.
  const outward = outwardSign(side);
  const back = -outward * dot(now.left, right.forward);
  return Math.atan2(back, dot(now.left, right.left)) * degreesPerRadian;
}
