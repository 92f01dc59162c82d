import type { C3dContents } from '../src/core/c3d/write-c3d.ts';
import { add, cross, dot, scale, subtract, type Vec3 } from '../src/core/geometry/vector.ts';
import { type MarkerPositions, markerLabel, outwardSign, SIDES, type Side, type SideLandmark } from './landmarks.ts';
import { type Recording, toLab } from './record-trial.ts';
import type { SeededRandom } from './seeded-random.ts';
import type { StandingPerson } from './standing-person.ts';

const ON_THIGH: readonly SideLandmark[] = ['GT', 'TW', 'LE'];
const ON_SHANK: readonly SideLandmark[] = ['HF', 'SW', 'LM', 'HEEL', 'MET5'];
const ON_TRUNK = ['C7', 'R_ACR', 'L_ACR', 'R_ASIS', 'L_ASIS', 'S1'] as const;
/** Twice down and up in five seconds, by hips and knees. */
const SECONDS = 5;
const BENDS = 2;
const FLEXION_DEG = 65;
/** A knee is no hinge: it goes this far into varus by itself on the way (from memory). */
const OWN_VARUS_DEG = 1.5;
const NOISE_MM = 0.3;
const FIVE_CAMERAS = 0x1f00;

/**
 * Films a person who bends their knees, with the markers as they are and the medial ones off: the thighs turn about the
 * hips, the shanks about the knees' own axes, whatever the markers say of those. The trunk is held in place, so that the
 * feet come up: only angles between thigh and shank mean anything here.
 */
export function bendKnees(
  person: StandingPerson,
  positions: MarkerPositions,
  recording: Recording,
  random: SeededRandom,
): C3dContents {
  const labels = [
    ...ON_TRUNK,
    ...SIDES.flatMap((side) => [...ON_THIGH, ...ON_SHANK].map((landmark) => markerLabel(side, landmark))),
  ];
  const frameCount = Math.round(recording.rateHz * SECONDS);
  const values = new Float32Array(frameCount * labels.length * 4);
  let at = 0;
  for (let frame = 0; frame < frameCount; frame += 1) {
    const share = (1 - Math.cos((2 * Math.PI * BENDS * frame) / frameCount)) / 2;
    const places = new Map(ON_TRUNK.map((label) => [label as string, positions.get(label)!]));
    for (const side of SIDES) {
      const bent = bendLeg(person, side, share);
      for (const landmark of ON_THIGH) {
        const label = markerLabel(side, landmark);
        places.set(label, bent.thigh(positions.get(label)!));
      }
      for (const landmark of ON_SHANK) {
        const label = markerLabel(side, landmark);
        places.set(label, bent.thigh(bent.shank(positions.get(label)!)));
      }
    }
    for (const label of labels) {
      const noisy = places.get(label)!.map((mm) => mm + random.bell(NOISE_MM)) as Vec3;
      values.set([...toLab(noisy, recording), FIVE_CAMERAS + 40], at);
      at += 4;
    }
  }
  return {
    rateHz: recording.rateHz,
    units: 'mm',
    labels,
    pointCount: labels.length,
    frameCount,
    values,
    screen: { x: '+X', y: '+Z' },
  };
}

/** @param share of the way down, 0 to 1 */
function bendLeg(person: StandingPerson, side: Side, share: number) {
  const { hip, knee, kneeAxis } = person[side];
  const outward = outwardSign(side);
  const flexion = (share * FLEXION_DEG * Math.PI) / 180;
  const varus = (share * OWN_VARUS_DEG * Math.PI) / 180;
  return {
    // Seen from outside on the left a positive turn about the outward axis takes the shank back; on the right, a negative.
    shank: (point: Vec3): Vec3 =>
      turn(turn(point, knee, [1, 0, 0], -outward * varus), knee, kneeAxis, outward * flexion),
    thigh: (point: Vec3): Vec3 => turn(point, hip, [0, 1, 0], -flexion / 2),
  };
}

/** A point turned about a unit axis through a centre, right-handed, radians. */
function turn(point: Vec3, centre: Vec3, axis: Vec3, angle: number): Vec3 {
  const from = subtract(point, centre);
  const along = scale(axis, dot(axis, from) * (1 - Math.cos(angle)));
  const turned = add(add(scale(from, Math.cos(angle)), scale(cross(axis, from), Math.sin(angle))), along);
  return add(centre, turned);
}
