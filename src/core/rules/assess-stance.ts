import { calibrateLowerBody } from '../gait-model/lower-body-model.ts';
import { referenceOf, restsOnEstimate, standingAngles } from '../gait-model/standing-angles.ts';
import type { MarkerSet, StanceDefinition } from '../marker-set/marker-set.ts';
import type { PostureDefinition } from '../marker-set/model-definition.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import { type Bounds, boundsOf, judge } from '../rule-kinds/allowed.ts';
import type { Description } from '../rule-kinds/rule-kind.ts';
import { isRecorded } from '../session/fact-names.ts';
import type { Session } from '../session/session.ts';
import { sideOf } from './expected-rules.ts';

export interface StanceOutcome {
  readonly item: StanceDefinition | PostureDefinition;
  readonly description: Pick<Description, 'value' | 'bounds'>;
  /** `expected`: out of range, with a recorded reason. */
  readonly status: 'pass' | 'borderline' | 'fail' | 'expected';
  /** It rests on a length that was estimated and not measured on the patient. */
  readonly estimated: boolean;
}

/** How the person stands: those looks whose points can be seen, then those by an angle of the model that can be read. */
export function assessStance(body: StandingBody, set: MarkerSet, session: Session): StanceOutcome[] {
  return [...looks(body, set, session), ...postures(body, set, session)];
}

function looks(body: StandingBody, set: MarkerSet, session: Session): StanceOutcome[] {
  return set.stance.flatMap((item) => {
    const kind = ruleKinds[item.kind];
    if (!kind.needs(item).points.every((point) => body.geometry.has(point))) return [];
    const { value, bounds } = kind.describe(body.positions, kind.resolve(item, body.geometry.lookup));
    return judgeLook(item, value, bounds, false, session);
  });
}

function postures(body: StandingBody, set: MarkerSet, session: Session): StanceOutcome[] {
  const model = calibrateLowerBody(set, session, body.lab, body.geometry.axes(body.lab).up);
  if (model === null) return [];
  const angles = standingAngles(model, body.lab, referenceOf(body));
  return set.model!.posture.flatMap((item) => {
    const angle = angles.find((one) => `${one.joint}.${one.motion}` === item.angle && one.side === item.side);
    if (angle === undefined) return [];
    return judgeLook(item, angle.deg, boundsOf(item.allowed, item.borderline), restsOnEstimate(angle, model), session);
  });
}

function judgeLook(
  item: StanceOutcome['item'],
  value: number,
  bounds: Bounds,
  estimated: boolean,
  session: Session,
): StanceOutcome[] {
  if (!Number.isFinite(value)) return [];
  const judged = judge(value, bounds, 0);
  const expected = judged === 'fail' && item.expectedWith.some((fact) => isRecorded(session, fact, sideOf(item)));
  return [{ item, description: { value, bounds }, status: expected ? 'expected' : judged, estimated }];
}
