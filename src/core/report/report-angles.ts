import { calibrateLowerBody } from '../gait-model/lower-body-model.ts';
import { referenceOf, restsOnEstimate, standingAngles } from '../gait-model/standing-angles.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import { sayEstimated } from '../moves/changes-words.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import type { Session } from '../session/session.ts';
import type { ReportedAngles } from './report.ts';

const sides = ['right', 'left'] as const;

/**
 * Joint angles in standing by the lower-body model of the set, and the lengths they rest on; null where it names none.
 * Pelvic rotation is left out: the patient's own forward is that of the pelvis.
 */
export function reportAngles(body: StandingBody, set: MarkerSet, session: Session): ReportedAngles | null {
  const model = calibrateLowerBody(set, session, body.lab, body.geometry.axes(body.lab).up);
  if (model === null) return null;
  const measurements = sides.flatMap((side) => {
    const leg = model[side];
    return 'lacking' in leg ? [] : leg.measurements;
  });
  return {
    values: standingAngles(model, body.lab, referenceOf(body))
      .filter(({ joint, motion }) => joint !== 'pelvis' || motion !== 'rotation')
      .map((angle) => {
        const item = set.model!.posture.find(
          (one) => one.angle === `${angle.joint}.${angle.motion}` && one.side === angle.side,
        );
        return { ...angle, usual: item?.allowed.range ?? null, estimated: restsOnEstimate(angle, model) };
      }),
    measurements,
    notComputed: sides.flatMap((side) => {
      const leg = model[side];
      return 'lacking' in leg ? [{ side, reason: leg.lacking }] : [];
    }),
    says: sayEstimated(measurements).trim(),
  };
}
