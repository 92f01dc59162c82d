import type { StandingBody } from '../pose/standing-body.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import type { Leg } from './calibrate-leg.ts';
import type { Frame } from './frame.ts';
import { type LowerBodyModel, legAngles, readLeg } from './lower-body-model.ts';
import { isEstimated } from './model-measurements.ts';

export const jointMotions = {
  pelvis: ['tilt', 'obliquity', 'rotation'],
  hip: ['flexion', 'adduction', 'rotation'],
  knee: ['flexion', 'varus', 'rotation'],
  ankle: ['dorsiflexion', 'rotation'],
  foot: ['progression'],
} as const;

export type Joint = keyof typeof jointMotions;

/** One joint angle; `legAngles` says what is positive. */
export interface JointAngle {
  readonly joint: Joint;
  readonly motion: string;
  readonly side: Side | 'midline';
  readonly deg: number;
}

/** Angles of both legs and of the pelvis, as far as the markers give them, against a reference. */
export function standingAngles(model: LowerBodyModel, markers: Float64Array, reference: Frame): JointAngle[] {
  const legs = (['right', 'left'] as const).flatMap((side) => {
    const leg = readLeg(model, side, markers);
    return leg === null ? [] : [{ side, leg }];
  });
  return legs.flatMap(({ side, leg }, index) => anglesOf(leg, reference, side, index === 0));
}

/** The pelvis is one for both legs and told with the first. */
function anglesOf(leg: Leg, reference: Frame, side: Side, withPelvis: boolean): JointAngle[] {
  const angles = legAngles(leg, reference, side) as unknown as Record<Joint, Record<string, number>>;
  return (Object.keys(jointMotions) as Joint[])
    .filter((joint) => withPelvis || joint !== 'pelvis')
    .flatMap((joint) =>
      jointMotions[joint].map((motion) => ({
        joint,
        motion,
        side: joint === 'pelvis' ? ('midline' as const) : side,
        deg: angles[joint][motion]!,
      })),
    );
}

/** Whether an angle rests on a length that was estimated; pelvis and foot progression are read from markers alone. */
export function restsOnEstimate({ joint, side }: JointAngle, model: LowerBodyModel): boolean {
  if (joint === 'pelvis' || joint === 'foot' || side === 'midline') return false;
  const leg = model[side];
  return !('lacking' in leg) && leg.measurements.some(isEstimated);
}

/** The body's own axes as the reference of angles. */
export function referenceOf(body: StandingBody): Frame {
  const { forward, left, up } = body.geometry.axes(body.lab);
  return { forward, left, up };
}
