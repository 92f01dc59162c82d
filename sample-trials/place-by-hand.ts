import { add, direction, dot, midpoint, subtract, type Vec3 } from '../src/core/geometry/vector.ts';
import { type MarkerPositions, markerLabel, SIDES, type Side, type SideLandmark } from './landmarks.ts';
import type { SeededRandom } from './seeded-random.ts';
import type { StandingPerson } from './standing-person.ts';
import { wandOffsetsMm, wandTip } from './wand.ts';

/**
 * How well a careful assessor places markers: SD along each of the two directions in the skin, so that a palpated marker
 * ends up about 3 mm (root mean square) from its landmark and one set by eye 1 to 2 mm. A landmark that is already marked
 * on the skin is found again within 1.4 mm (Telfer 2010); palpating it anew is looser, so 3 mm is a good hand.
 */
const PALPATED_SD_MM = 2.1;
const DEPTH_SD_MM = 0.5;
const WITHIN_SD = 2;
const WAND_TURN_WITHIN_DEG = 0.9;
const WAND_HEIGHT_WITHIN_MM = 2;
const WAND_OFFSET_WITHIN_MM = 1;
const HEEL_HEIGHT_WITHIN_MM = 0.8;
const HEEL_SIDEWAYS_WITHIN_MM = 1.2;

const PALPATED: readonly SideLandmark[] = ['ACR', 'ASIS', 'PSIS', 'GT', 'LE', 'ME', 'HF', 'LM', 'MM', 'MET5', 'MET2'];

/** Direction out of the skin at a landmark, forward, left, up for the left side. */
const SKIN_NORMAL: Readonly<Record<string, Vec3>> = {
  C7: [-1, 0, 0],
  S1: [-1, 0, 0],
  ACR: [0, 0, 1],
  ASIS: [1, 0, 0],
  PSIS: [-1, 0, 0],
  GT: [0, 1, 0],
  LE: [0, 1, 0],
  ME: [0, -1, 0],
  HF: [0, 1, 0],
  LM: [0, 1, 0],
  MM: [0, -1, 0],
  MET5: [0, 1, 0],
  MET2: [0, 0, 1],
};

/**
 * Puts the markers on as a careful assessor does, in the assessor's order: bony landmarks by palpation, then each wand
 * by eye against the markers already on, then the heel level with the forefoot marker. The result is given in the body
 * axes that the placed ASIS markers define, origin mid-ASIS on the floor.
 */
export function placeByHand(person: StandingPerson, random: SeededRandom): MarkerPositions {
  const placed = new Map(person.markers);
  for (const landmark of ['C7', 'S1']) placed.set(landmark, palpated(placed.get(landmark)!, landmark, random));
  for (const side of SIDES) {
    for (const landmark of PALPATED) {
      const label = markerLabel(side, landmark);
      placed.set(label, palpated(placed.get(label)!, landmark, random));
    }
  }
  for (const side of SIDES) {
    placeWands(placed, side, person.description.statureMm, random);
    placeHeel(placed, side, person, random);
  }
  return inPlacedBodyAxes(placed);
}

function palpated(site: Vec3, landmark: string, random: SeededRandom): Vec3 {
  const normal = SKIN_NORMAL[landmark]!;
  const scatter = normal.map((component) =>
    random.bell(component === 0 ? PALPATED_SD_MM : DEPTH_SD_MM, WITHIN_SD),
  ) as Vec3;
  return add(site, scatter);
}

function placeWands(placed: Map<string, Vec3>, side: Side, statureMm: number, random: SeededRandom): void {
  const at = (landmark: SideLandmark): Vec3 => placed.get(markerLabel(side, landmark))!;
  const offsets = wandOffsetsMm(statureMm);
  const wand = (top: SideLandmark, bottom: SideLandmark, medial: SideLandmark, lateral: SideLandmark, offset: number) =>
    wandTip({
      top: at(top),
      bottom: at(bottom),
      axis: subtract(at(lateral), at(medial)),
      side,
      offsetMm: offset + random.between(-WAND_OFFSET_WITHIN_MM, WAND_OFFSET_WITHIN_MM),
      share: 0.5 + random.between(-WAND_HEIGHT_WITHIN_MM, WAND_HEIGHT_WITHIN_MM) / 400,
      turnDeg: random.between(-WAND_TURN_WITHIN_DEG, WAND_TURN_WITHIN_DEG),
    });
  placed.set(markerLabel(side, 'TW'), wand('GT', 'LE', 'ME', 'LE', offsets.thigh));
  placed.set(markerLabel(side, 'SW'), wand('HF', 'LM', 'MM', 'LM', offsets.shank));
}

function placeHeel(placed: Map<string, Vec3>, side: Side, person: StandingPerson, random: SeededRandom): void {
  // In a supinated foot the lab puts its forefoot marker on the second head; the heel is levelled with that one.
  const forefoot = person.description[side].footSupinationDeg === 0 ? 'MET5' : 'MET2';
  const label = markerLabel(side, 'HEEL');
  const heel = placed.get(label)!;
  placed.set(label, [
    heel[0],
    heel[1] + random.between(-HEEL_SIDEWAYS_WITHIN_MM, HEEL_SIDEWAYS_WITHIN_MM),
    placed.get(markerLabel(side, forefoot))![2] + random.between(-HEEL_HEIGHT_WITHIN_MM, HEEL_HEIGHT_WITHIN_MM),
  ]);
}

function inPlacedBodyAxes(placed: MarkerPositions): MarkerPositions {
  const right = placed.get('R_ASIS')!;
  const left = placed.get('L_ASIS')!;
  const middle = midpoint(right, left);
  const leftward = direction([left[0] - right[0], left[1] - right[1], 0])!;
  const forward: Vec3 = [leftward[1], -leftward[0], 0];
  const turned = (position: Vec3): Vec3 => {
    const from = subtract(position, middle);
    return [dot(from, forward), dot(from, leftward), position[2]];
  };
  return new Map([...placed].map(([label, position]) => [label, turned(position)]));
}
