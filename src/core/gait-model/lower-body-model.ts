import type { Vec3 } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import type { Session } from '../session/session.ts';
import { type CalibratedLeg, calibrateLeg, type Leg, type LegWithoutModel } from './calibrate-leg.ts';
import type { Frame } from './frame.ts';
import { ankleAngles, footProgression, hipAngles, kneeAngles, pelvisAngles } from './joint-angles.ts';

/** The model of one patient, calibrated on a standing trial: each leg, or why there is none. */
export type LowerBodyModel = Readonly<Record<Side, CalibratedLeg | LegWithoutModel>>;

/**
 * Calibrates the conventional lower-body model (Davis, Ounpuu, Tyburski and Gage 1991, Hum Mov Sci 10:575-587, with its
 * erratum; construction from memory) on a standing trial: measurements from the session or else estimated, half widths
 * of the joints, static offsets. What is read later, frame by frame, is `model.right.read(markers)`: joint centres, axes
 * and the foot's line in the axes of those markers; `legAngles` gives their angles.
 *
 * A static trial and a walking or knee-bend trial of the same markers share one model: the medial markers of the static
 * trial may be gone in the other. Reading a leg takes a few microseconds and allocates little, so it can be done for
 * every frame.
 *
 * @param set its `model` says which markers are read
 * @param standing marker positions of the standing trial: index marker * 3, mm, any right-handed axes, NaN where unseen
 * @param up the vertical in those axes, unit vector; only a foot taken as flat asks for it
 * @returns null where the set has no model
 */
export function calibrateLowerBody(
  set: MarkerSet,
  session: Session,
  standing: Float64Array,
  up: Vec3,
): LowerBodyModel | null {
  if (set.model === null) return null;
  return {
    right: calibrateLeg('right', set, session, standing, up),
    left: calibrateLeg('left', set, session, standing, up),
  };
}

/** The leg as the markers show it; null where it has no model or a marker it needs is not seen. */
export function readLeg(model: LowerBodyModel | null, side: Side, markers: Float64Array): Leg | null {
  const leg = model?.[side];
  return leg === undefined || 'lacking' in leg ? null : leg.read(markers);
}

/**
 * Angles of a leg in degrees; `reference` holds the direction against which pelvis and foot are told, in the same axes
 * as the leg (forward, left, up; unit vectors). Positive: pelvis tilted forward, its right side higher, turned to the
 * left; hip flexed, adducted, turned inward; knee flexed, in varus, turned inward; ankle dorsiflexed, foot turned inward
 * on the shank; foot turned out against the reference. Each joint is told in the order flexion, adduction (varus),
 * rotation: about the upper segment's left axis, the turned forward axis, the lower segment's own long axis.
 */
export function legAngles(leg: Leg, reference: Frame, side: Side): LegAngles {
  return {
    pelvis: pelvisAngles(leg.pelvis, reference),
    hip: hipAngles(leg.pelvis, leg.thigh, side),
    knee: kneeAngles(leg.thigh, leg.shank, side),
    ankle: ankleAngles(leg.shank, leg.foot, side),
    foot: { progression: footProgression(leg.foot, reference, side) },
  };
}

export interface LegAngles {
  readonly pelvis: { readonly tilt: number; readonly obliquity: number; readonly rotation: number };
  readonly hip: { readonly flexion: number; readonly adduction: number; readonly rotation: number };
  readonly knee: { readonly flexion: number; readonly varus: number; readonly rotation: number };
  readonly ankle: { readonly dorsiflexion: number; readonly rotation: number };
  readonly foot: { readonly progression: number };
}
