import type { Vec3 } from '../geometry/vector.ts';
import { type Naming, placeCost, unnamedCost } from './assign-landmarks.ts';
import { placesInParts } from './bring-into-line.ts';
import { landmarkPlaces } from './landmark-places.ts';

/** A landmark on one side alone: protocols are the same on both. */
const onOneSideCost = 5;
/** The left one to the right of the right one. */
const crossedCost = 40;
/** A head of the fibula without an epicondyle, and the like: nobody marks the rarer one alone. */
const withoutUsualCost = 20;
/** Marked less often than its rivals, by common practice. */
const seldomCost: Readonly<Record<string, number>> = { 'tibial tuberosity': 4, 'head of the fifth metatarsal': 3 };
const usualBeside: Readonly<Record<string, string>> = {
  'medial femoral epicondyle': 'lateral femoral epicondyle',
  'head of the fibula': 'lateral femoral epicondyle',
  'tibial tuberosity': 'lateral femoral epicondyle',
  'medial malleolus': 'lateral malleolus',
};

const other = (called: string, side: string): number =>
  landmarkPlaces.findIndex((place) => place.called === called && place.side === side);
/** Index of the same landmark on the other side; -1 on the midline. */
export const mirrorOf: readonly number[] = landmarkPlaces.map(({ called, side }) =>
  side === 'midline' ? -1 : other(called, side === 'right' ? 'left' : 'right'),
);
const usualOf: readonly number[] = landmarkPlaces.map(({ called, side }) => other(usualBeside[called] ?? '', side));

/**
 * How badly a naming of all points together fits a standing person, in squared standard deviations: twice the negative
 * log probability, but for a constant. Each part of the body is first brought to its own points.
 * @param points on the average adult's size and axes, forward, left, up; mm
 */
export function namingCost(points: readonly Vec3[], naming: Naming): number {
  const places = placesInParts(points, naming);
  const pointOf = new Int32Array(landmarkPlaces.length).fill(-1);
  naming.forEach((landmark, point) => {
    if (landmark >= 0) pointOf[landmark] = point;
  });
  let cost = 0;
  naming.forEach((landmark, index) => {
    if (landmark < 0) {
      cost += unnamedCost;
      return;
    }
    const { sdMm, mm, side, called } = landmarkPlaces[landmark]!;
    cost +=
      placeCost(points[index]!, places[landmark]!, sdMm) + shiftCost(places[landmark]!, mm) + (seldomCost[called] ?? 0);
    const mirror = mirrorOf[landmark]!;
    if (mirror >= 0 && pointOf[mirror]! < 0) cost += onOneSideCost;
    if (side === 'left' && pointOf[mirror]! >= 0 && points[index]![1] < points[pointOf[mirror]!]![1])
      cost += crossedCost;
    const usual = usualOf[landmark]!;
    if (usual >= 0 && pointOf[usual]! < 0) cost += withoutUsualCost;
  });
  return cost;
}

const partSdMm: Vec3 = [120, 120, 60];

/** That a part of the body lies elsewhere than on the adult is paid by each of its landmarks. */
function shiftCost(place: Vec3, mm: Vec3): number {
  return place.reduce((sum, value, axis) => sum + ((value - mm[axis]!) / partSdMm[axis]!) ** 2, 0);
}
