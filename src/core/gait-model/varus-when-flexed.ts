import { add, cross, dot, scale, subtract, type Vec3 } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import { at, degreesPerRadian } from '../rule-kinds/positions.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import type { Leg } from './calibrate-leg.ts';
import { kneeAngles } from './joint-angles.ts';
import { type LowerBodyModel, readLeg } from './lower-body-model.ts';

/**
 * Varus (valgus negative) that a model reads when a knee which is a pure hinge is bent to a given flexion, degrees: the
 * cross-talk of a knee axis that is not where the model takes it for (Baker, Finney and Orr 1999, Hum Mov Sci
 * 18:655-667). The markers below the knee turn about the true axis; each stays on its segment.
 *
 * @param model calibrated on `markers`
 * @param markers of the standing trial, mm, any right-handed axes
 * @param truth the leg by whose knee axis it bends, in the same axes
 * @returns null where the model does not read this leg
 */
export function varusWhenFlexed(
  model: LowerBodyModel,
  markers: Float64Array,
  set: MarkerSet,
  side: Side,
  truth: Leg,
  flexionDeg: number,
): number | null {
  const { flexion } = kneeAngles(truth.thigh, truth.shank, side);
  const turnRad = (flexionDeg - flexion) / degreesPerRadian;
  const bent = markers.slice();
  for (const label of belowKnee(set, side)) {
    const slot = set.markers.findIndex((marker) => marker.label === label) * 3;
    if (slot < 0) continue;
    const turned = add(truth.knee, turnAbout(subtract(at(markers, slot), truth.knee), truth.thigh.left, turnRad));
    bent.set(turned, slot);
  }
  const leg = readLeg(model, side, bent);
  return leg === null ? null : kneeAngles(leg.thigh, leg.shank, side).varus;
}

function belowKnee(set: MarkerSet, side: Side): (string | null)[] {
  const { ankle, foot } = set.model![side];
  return [ankle.lateral, ankle.medial, ankle.wand, foot.from, foot.to];
}

/** A vector turned about a unit axis, right-handed (Rodrigues). */
function turnAbout(vector: Vec3, axis: Vec3, turnRad: number): Vec3 {
  const along = scale(axis, dot(vector, axis) * (1 - Math.cos(turnRad)));
  const square = add(scale(vector, Math.cos(turnRad)), scale(cross(axis, vector), Math.sin(turnRad)));
  return add(square, along);
}
