import type { StandingBody } from '../pose/standing-body.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import type { Session } from '../session/session.ts';
import { calibrateLowerBody, type LowerBodyModel, readLeg } from './lower-body-model.ts';
import { isEstimated, type ModelMeasurement } from './model-measurements.ts';
import { type JointAngle, referenceOf, standingAngles } from './standing-angles.ts';
import { varusWhenFlexed } from './varus-when-flexed.ts';

/** What a marker's way changes in the data; degrees, as it would be read less as it is read now. */
export interface DataChanges {
  /** Joint angles in standing that change by 0.05 degrees or more, the largest change first. */
  readonly angles: readonly JointAngle[];
  /** Varus read at that flexion of a knee that is a hinge, for each leg. */
  readonly crossTalk: readonly { readonly side: Side; readonly atFlexionDeg: number; readonly varusDeg: number }[];
  /** The largest of all these, without its sign. */
  readonly largestDeg: number;
  readonly band: ErrorBand;
  /** Lengths of the model that were estimated and not measured on the patient. */
  readonly estimated: readonly ModelMeasurement[];
}

/**
 * Published bands of error in gait angles (McGinley et al. 2009, Gait Posture 29:360-369; the bands from memory): under 2
 * degrees acceptable, 2 to 5 reasonable, over 5 a concern. They are a laboratory's total error, not one marker's share.
 */
export type ErrorBand = 'under-2' | '2-to-5' | 'over-5';

/** Flexion at which cross-talk is told: about the peak of swing, where it is largest in walking. */
const crossTalkFlexionDeg = 60;
/** Smaller changes are not told: figures are written to a tenth of a degree. */
const leastToldDeg = 0.05;

/**
 * What the way of a marker changes in the data, from where it is to where it is expected. Each body is calibrated for
 * itself, as a new static trial would be; both are told against where the pelvis faces before.
 * @returns null where the marker set names no model, or no leg has one
 */
export function dataChanges(before: StandingBody, after: StandingBody, session: Session): DataChanges | null {
  const was = modelOf(before, session);
  const is = modelOf(after, session);
  if (was === null || is === null) return null;
  const reference = referenceOf(before);
  const then = standingAngles(is, after.lab, reference);
  const angles = standingAngles(was, before.lab, reference).flatMap((angle) => {
    const other = then.find((one) => sameAngle(one, angle));
    const deg = other === undefined ? 0 : turnedBy(angle.deg, other.deg);
    return Math.abs(deg) < leastToldDeg ? [] : [{ ...angle, deg }];
  });
  const crossTalk = sides.flatMap((side) => {
    const truth = readLeg(is, side, after.lab);
    if (truth === null) return [];
    const read = varusWhenFlexed(was, before.lab, before.set, side, truth, crossTalkFlexionDeg);
    const right = varusWhenFlexed(is, after.lab, after.set, side, truth, crossTalkFlexionDeg);
    if (read === null || right === null || Math.abs(right - read) < leastToldDeg) return [];
    return [{ side, atFlexionDeg: crossTalkFlexionDeg, varusDeg: right - read }];
  });
  if (then.length === 0) return null;
  const sizes = [...angles.map(({ deg }) => deg), ...crossTalk.map(({ varusDeg }) => varusDeg)].map(Math.abs);
  const largestDeg = Math.max(0, ...sizes);
  return {
    angles: angles.toSorted((a, b) => Math.abs(b.deg) - Math.abs(a.deg)),
    crossTalk,
    largestDeg,
    band: bandOf(largestDeg),
    estimated: estimatedIn(was),
  };
}

const sides = ['right', 'left'] as const;

function modelOf({ set, lab, geometry }: StandingBody, session: Session): LowerBodyModel | null {
  return calibrateLowerBody(set, session, lab, geometry.axes(lab).up);
}

function sameAngle(a: JointAngle, b: JointAngle): boolean {
  return a.joint === b.joint && a.motion === b.motion && a.side === b.side;
}

/** From one direction to another the short way round. */
function turnedBy(fromDeg: number, toDeg: number): number {
  const by = (toDeg - fromDeg) % 360;
  return by > 180 ? by - 360 : by < -180 ? by + 360 : by;
}

export function bandOf(largestDeg: number): ErrorBand {
  return largestDeg < 2 ? 'under-2' : largestDeg <= 5 ? '2-to-5' : 'over-5';
}

/** The lengths of a model that were estimated. */
export function estimatedIn(model: LowerBodyModel): ModelMeasurement[] {
  return sides.flatMap((side) => {
    const leg = model[side];
    return 'lacking' in leg ? [] : leg.measurements.filter(isEstimated);
  });
}
