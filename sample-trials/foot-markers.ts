import type { Vec3 } from '../src/core/geometry/vector.ts';
import { radians } from './angles-and-directions.ts';
import type { BodySizes } from './body-proportions.ts';
import { outwardSign, type Side } from './landmarks.ts';
import type { PersonDescription } from './person-description.ts';

export interface FootMarkers {
  readonly heel: Vec3;
  readonly fifthMetatarsal: Vec3;
  readonly secondMetatarsal: Vec3;
}

/**
 * The foot's long axis runs from the heel under the ankle centre to the second metatarsal head. Positions along it as
 * shares of foot length: ankle .22, fifth head .63, second head .72 (from memory; ANSUR II has the ball of the foot at
 * .74). A foot in supination is rolled about its outer edge; its heel marker follows the second head's height.
 */
export function footMarkers(side: Side, person: PersonDescription, sizes: BodySizes, ankle: Vec3): FootMarkers {
  const { footProgressionDeg, footSupinationDeg } = person[side];
  const heading = radians(footProgressionDeg);
  const sideSign = outwardSign(side);
  const under = (forward: number, outward: number, up: number): Vec3 => [
    ankle[0] + forward * Math.cos(heading) - outward * Math.sin(heading),
    ankle[1] + sideSign * (forward * Math.sin(heading) + outward * Math.cos(heading)),
    up,
  ];
  const radius = person.markerRadiusMm;
  const heelBehindMm = -(0.22 * sizes.footLengthMm + radius);
  const fifthForwardMm = (0.63 - 0.22) * sizes.footLengthMm;
  const secondForwardMm = (0.72 - 0.22) * sizes.footLengthMm;
  const outerEdgeMm = 0.56 * sizes.footBreadthMm;
  const fifthHeightMm = 0.0185 * person.statureMm;
  const secondHeightMm = 0.026 * person.statureMm;
  if (footSupinationDeg === 0) {
    return {
      heel: under(heelBehindMm, 0, fifthHeightMm),
      fifthMetatarsal: under(fifthForwardMm, outerEdgeMm + 4, fifthHeightMm),
      secondMetatarsal: under(secondForwardMm, 0, secondHeightMm),
    };
  }
  const roll = radians(footSupinationDeg);
  const rolled = (forward: number, inside: number, up: number, edgeMm: number): Vec3 =>
    under(
      forward,
      edgeMm - inside * Math.cos(roll) + up * Math.sin(roll),
      inside * Math.sin(roll) + up * Math.cos(roll),
    );
  const second = rolled(secondForwardMm, outerEdgeMm, secondHeightMm, outerEdgeMm);
  // The heel is narrower (ANSUR II .041 of stature) and rolls about its own outer edge.
  const halfHeelMm = 0.0205 * person.statureMm;
  const upTheHeelMm = (second[2] - halfHeelMm * Math.sin(roll)) / Math.cos(roll);
  return {
    heel: rolled(heelBehindMm, halfHeelMm, upTheHeelMm, halfHeelMm),
    fifthMetatarsal: rolled(fifthForwardMm, -4, fifthHeightMm, outerEdgeMm),
    secondMetatarsal: second,
  };
}
