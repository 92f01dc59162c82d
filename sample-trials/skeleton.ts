import { add, cross, distance, dot, midpoint, scale, subtract, type Vec3 } from '../src/core/geometry/vector.ts';
import { radians, unit } from './angles-and-directions.ts';
import type { BodySizes } from './body-proportions.ts';
import { outwardSign, type Side } from './landmarks.ts';
import type { PersonDescription } from './person-description.ts';

/** Joint centres and axes that the markers are built on. */
export interface Leg {
  readonly hip: Vec3;
  readonly knee: Vec3;
  readonly ankle: Vec3;
  /** Unit vector from the medial to the lateral epicondyle. */
  readonly kneeAxis: Vec3;
  /** Unit vector from the medial to the lateral malleolus. */
  readonly malleolarAxis: Vec3;
}

const UP: Readonly<Vec3> = [0, 0, 1];
/** The lateral malleolus lies lower than the medial one: the ankle axis is tipped by about 8 degrees (from memory). */
const MALLEOLAR_TIP_DEG = 8;

export interface Pelvis {
  readonly midAsis: Vec3;
  readonly obliquityRad: number;
  /** Unit vectors of the pelvis: anterior in the plane of ASIS and PSIS, left along the ASIS, cranial square to both. */
  readonly anterior: Vec3;
  readonly left: Vec3;
  readonly cranial: Vec3;
}

/** Hip centre from the middle of the ASIS: Harrington 2007 (J Biomech 40:595-602), simple form; millimetres. */
export function hipOffsets(sizes: BodySizes): { anterior: number; cranial: number; lateral: number } {
  return {
    anterior: -0.24 * sizes.pelvicDepthMm - 9.9,
    cranial: -0.3 * sizes.asisDistanceMm - 10.9,
    lateral: 0.33 * sizes.asisDistanceMm + 7.3,
  };
}

function pelvisAxes(slopeRad: number, obliquityRad: number): Pick<Pelvis, 'anterior' | 'left' | 'cranial'> {
  const rolled = ([forward, left, up]: Vec3): Vec3 => [
    forward,
    left * Math.cos(obliquityRad) - up * Math.sin(obliquityRad),
    left * Math.sin(obliquityRad) + up * Math.cos(obliquityRad),
  ];
  // Rolled to one side, the line from sacrum to ASIS looks flatter from the side: steepened so that it shows its slope.
  const tiltRad = Math.atan(Math.tan(slopeRad) / Math.cos(obliquityRad));
  return {
    anterior: rolled([Math.cos(tiltRad), 0, -Math.sin(tiltRad)]),
    left: rolled([0, 1, 0]),
    cranial: rolled([Math.sin(tiltRad), 0, Math.cos(tiltRad)]),
  };
}

/** Sets the pelvis down on both legs: its height and obliquity follow from their lengths; it faces straight ahead. */
export function settlePelvis(person: PersonDescription, sizes: BodySizes): Pelvis {
  const hip = hipOffsets(sizes);
  const slopeRad = radians(person.pelvicSlopeDeg);
  const ankles = { right: ankleCentre('right', person, sizes), left: ankleCentre('left', person, sizes) };
  let obliquityRad = 0;
  let midAsis: Vec3 = [0, 0, 0];
  // A fixed point: obliquity moves the hips sideways a little, which moves their heights a little. Converges at once.
  for (let round = 0; round < 30; round += 1) {
    const axes = pelvisAxes(slopeRad, obliquityRad);
    const fromMidAsis = (side: Side): Vec3 =>
      add(
        add(scale(axes.anterior, hip.anterior), scale(axes.cranial, hip.cranial)),
        scale(axes.left, outwardSign(side) * hip.lateral),
      );
    const offset = { right: fromMidAsis('right'), left: fromMidAsis('left') };
    const middle = midpoint(offset.right, offset.left);
    const hipHeight = (side: Side): number => {
      const forward = person.hipForwardMm - middle[0] + offset[side][0] - ankles[side][0];
      const sideways = offset[side][1] - middle[1] - ankles[side][1];
      return ankles[side][2] + Math.sqrt(legChordMm(side, person, sizes) ** 2 - forward ** 2 - sideways ** 2);
    };
    const heights = { right: hipHeight('right'), left: hipHeight('left') };
    obliquityRad = Math.asin((heights.left - heights.right) / (2 * hip.lateral));
    midAsis = [
      person.hipForwardMm - middle[0],
      -middle[1],
      (heights.right - offset.right[2] + heights.left - offset.left[2]) / 2,
    ];
  }
  return { midAsis, obliquityRad, ...pelvisAxes(slopeRad, obliquityRad) };
}

function ankleCentre(side: Side, person: PersonDescription, sizes: BodySizes): Vec3 {
  const leg = person[side];
  const lateralMalleolusMm = sizes.lateralMalleolusHeightMm + leg.malleolusHeightExtraMm;
  const halfWidthMm = sizes.ankleWidthMm / 2 + person.markerRadiusMm;
  return [
    leg.footForwardMm,
    outwardSign(side) * 0.052 * person.statureMm,
    lateralMalleolusMm + halfWidthMm * Math.sin(radians(MALLEOLAR_TIP_DEG)),
  ];
}

function boneLengthsMm(side: Side, person: PersonDescription, sizes: BodySizes): { thigh: number; shank: number } {
  const leg = person[side];
  const ankleHeightMm = ankleCentre(side, person, sizes)[2] - leg.malleolusHeightExtraMm;
  return {
    thigh: sizes.trochanterHeightMm - sizes.epicondyleHeightMm + leg.thighExtraMm,
    shank: sizes.epicondyleHeightMm - ankleHeightMm + leg.shankExtraMm,
  };
}

/** Hip centre to ankle centre with the knee as bent as it is. */
function legChordMm(side: Side, person: PersonDescription, sizes: BodySizes): number {
  const { thigh, shank } = boneLengthsMm(side, person, sizes);
  const flexion = radians(person[side].kneeFlexionDeg);
  return Math.sqrt(thigh ** 2 + shank ** 2 + 2 * thigh * shank * Math.cos(flexion));
}

/** Joint centres and axes of one leg between the settled hip and the foot on the floor. */
export function bendLeg(side: Side, person: PersonDescription, sizes: BodySizes, pelvis: Pelvis): Leg {
  const description = person[side];
  const outward = outwardSign(side);
  const offsets = hipOffsets(sizes);
  const hip = add(
    pelvis.midAsis,
    add(
      add(scale(pelvis.anterior, offsets.anterior), scale(pelvis.cranial, offsets.cranial)),
      scale(pelvis.left, outward * offsets.lateral),
    ),
  );
  const ankle = ankleCentre(side, person, sizes);
  const upTheLeg = unit(subtract(hip, ankle));

  // The knee is a hinge: its axis is square to the leg and, seen from above, turned by exactly the knee turn.
  const turn = radians(description.kneeTurnDeg);
  const level: Vec3 = [-Math.sin(turn), outward * Math.cos(turn), 0];
  const kneeAxis = unit(add(level, scale(UP, -dot(level, upTheLeg) / upTheLeg[2])));
  const { thigh, shank } = boneLengthsMm(side, person, sizes);
  const chord = distance(hip, ankle);
  const along = (shank ** 2 + chord ** 2 - thigh ** 2) / (2 * chord);
  const ahead = Math.sign(description.kneeFlexionDeg) * Math.sqrt(Math.max(0, shank ** 2 - along ** 2));
  const kneeForward = scale(cross(kneeAxis, upTheLeg), outward);
  const knee = add(ankle, add(scale(upTheLeg, along), scale(kneeForward, ahead)));

  const upTheShank = unit(subtract(knee, ankle));
  const shankForward = scale(cross(kneeAxis, upTheShank), outward);
  const torsion = radians(description.tibialTorsionDeg);
  const tip = radians(MALLEOLAR_TIP_DEG);
  const square = subtract(scale(kneeAxis, Math.cos(torsion)), scale(shankForward, Math.sin(torsion)));
  const malleolarAxis = subtract(scale(square, Math.cos(tip)), scale(upTheShank, Math.sin(tip)));
  return { hip, knee, ankle, kneeAxis, malleolarAxis };
}
