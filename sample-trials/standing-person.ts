import { add, cross, midpoint, scale, subtract, type Vec3 } from '../src/core/geometry/vector.ts';
import { degrees, radians, unit } from './angles-and-directions.ts';
import { type BodySizes, bodySizes } from './body-proportions.ts';
import { footMarkers } from './foot-markers.ts';
import { type MarkerPositions, markerLabel, outwardSign, SIDES, type Side, type SideLandmark } from './landmarks.ts';
import type { PersonDescription } from './person-description.ts';
import { bendLeg, hipOffsets, type Leg, type Pelvis, settlePelvis } from './skeleton.ts';
import { wandOffsetsMm, wandTip } from './wand.ts';

export interface StandingPerson {
  readonly description: PersonDescription;
  readonly sizes: BodySizes;
  readonly right: Leg;
  readonly left: Leg;
  /** Rise of the left side of the pelvis, which follows from the lengths of the legs. */
  readonly pelvicObliquityDeg: number;
  readonly markers: MarkerPositions;
}

const MEAN_MAN_MM = 1756;

/**
 * Stands a person on the floor, facing forward, with every marker exactly where the protocol wants it.
 *
 * The feet stand on the floor, each leg is as long as its bones and knee flexion make it, and the pelvis settles on both:
 * its height and obliquity are the result. The knee turn is taken as the femur's own twist, so the trochanter stays.
 * Origin: the middle of the ASIS dropped to the floor.
 */
export function standingPerson(description: PersonDescription): StandingPerson {
  const sizes = bodySizes(description.statureMm, description.sex, description.ageYears);
  const pelvis = settlePelvis(description, sizes);
  const right = bendLeg('right', description, sizes, pelvis);
  const left = bendLeg('left', description, sizes, pelvis);

  const markers = new Map<string, Vec3>();
  placePelvisMarkers(markers, description, sizes, pelvis);
  placeTrunkMarkers(markers, description, sizes, midpoint(right.hip, left.hip));
  placeLegMarkers(markers, 'right', description, sizes, right);
  placeLegMarkers(markers, 'left', description, sizes, left);

  const toOrigin: Vec3 = [-pelvis.midAsis[0], -pelvis.midAsis[1], 0];
  const shifted = (leg: Leg): Leg => ({
    ...leg,
    hip: add(leg.hip, toOrigin),
    knee: add(leg.knee, toOrigin),
    ankle: add(leg.ankle, toOrigin),
  });
  return {
    description,
    sizes,
    right: shifted(right),
    left: shifted(left),
    pelvicObliquityDeg: degrees(pelvis.obliquityRad),
    markers: new Map([...markers].map(([label, position]) => [label, add(position, toOrigin)])),
  };
}

function placePelvisMarkers(
  markers: Map<string, Vec3>,
  person: PersonDescription,
  sizes: BodySizes,
  pelvis: Pelvis,
): void {
  const midPsis = add(pelvis.midAsis, scale(pelvis.anterior, -sizes.pelvicDepthMm));
  for (const side of SIDES) {
    const outward = outwardSign(side);
    markers.set(
      markerLabel(side, 'ASIS'),
      add(pelvis.midAsis, scale(pelvis.left, (outward * sizes.asisDistanceMm) / 2)),
    );
    markers.set(markerLabel(side, 'PSIS'), add(midPsis, scale(pelvis.left, outward * 0.028 * person.statureMm)));
  }
  markers.set('S1', add(midPsis, scale(pelvis.left, person.sacralLeftMm)));
}

function placeTrunkMarkers(
  markers: Map<string, Vec3>,
  person: PersonDescription,
  sizes: BodySizes,
  midHip: Vec3,
): void {
  const lean = radians(person.trunkLeanDeg);
  const inTrunk = (forward: number, left: number, up: number): Vec3 => [
    midHip[0] + forward * Math.cos(lean) + up * Math.sin(lean),
    midHip[1] + left,
    midHip[2] - forward * Math.sin(lean) + up * Math.cos(lean),
  ];
  const shoulderUp = sizes.acromialHeightMm - sizes.trochanterHeightMm + person.markerRadiusMm;
  for (const side of SIDES) {
    // The marker sits on top, a little inside the outermost edge that the breadth is measured at.
    const sideways = outwardSign(side) * 0.475 * sizes.biacromialMm;
    markers.set(markerLabel(side, 'ACR'), inTrunk(0, sideways, shoulderUp));
  }
  markers.set('C7', inTrunk(-0.037 * person.statureMm, 0, sizes.c7HeightMm - sizes.trochanterHeightMm));
}

function placeLegMarkers(
  markers: Map<string, Vec3>,
  side: Side,
  person: PersonDescription,
  sizes: BodySizes,
  leg: Leg,
): void {
  const set = (landmark: SideLandmark, position: Vec3) => markers.set(markerLabel(side, landmark), position);
  const outward = outwardSign(side);
  const build = person.statureMm / MEAN_MAN_MM;
  const radius = person.markerRadiusMm;

  const trochanter = add(leg.hip, [
    -10 * build,
    outward * (0.49 * sizes.hipBreadthMm + radius - hipOffsets(sizes).lateral),
    0,
  ]);
  const halfKneeMm = sizes.kneeWidthMm / 2 + radius;
  const lateralEpicondyle = add(leg.knee, scale(leg.kneeAxis, halfKneeMm));
  const halfAnkleMm = sizes.ankleWidthMm / 2 + radius;
  const lateralMalleolus = add(leg.ankle, scale(leg.malleolarAxis, halfAnkleMm));
  set('GT', trochanter);
  set('LE', lateralEpicondyle);
  set('ME', add(leg.knee, scale(leg.kneeAxis, -halfKneeMm)));
  set('LM', lateralMalleolus);
  set('MM', add(leg.ankle, scale(leg.malleolarAxis, -halfAnkleMm)));

  // Head of the fibula: below the epicondyle along the shank, a little behind it, and hardly further in.
  const upTheShank = unit(subtract(leg.knee, leg.ankle));
  const shankForward = scale(cross(leg.kneeAxis, upTheShank), outward);
  const fibula = add(
    add(lateralEpicondyle, scale(upTheShank, -(10 + 0.011 * person.statureMm))),
    add(scale(shankForward, -14 * build), scale(leg.kneeAxis, -3 * build)),
  );
  set('HF', fibula);

  const wands = wandOffsetsMm(person.statureMm);
  set('TW', wandTip({ top: trochanter, bottom: lateralEpicondyle, axis: leg.kneeAxis, side, offsetMm: wands.thigh }));
  set('SW', wandTip({ top: fibula, bottom: lateralMalleolus, axis: leg.malleolarAxis, side, offsetMm: wands.shank }));

  const foot = footMarkers(side, person, sizes, leg.ankle);
  set('HEEL', foot.heel);
  set('MET5', foot.fifthMetatarsal);
  set('MET2', foot.secondMetatarsal);
}
