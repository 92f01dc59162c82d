import type { Vec3 } from '../geometry/vector.ts';
import type { Naming } from './assign-landmarks.ts';
import { type LandmarkPlace, landmarkPlaces } from './landmark-places.ts';

/** People are not narrower or wider than this against the adult of their height. */
const sizes = { least: 0.6, most: 1.6 };
const fewestNamed = 5;

/**
 * Turns, sizes and shifts the points so that those with a landmark lie as near to it as they can: heading about the
 * vertical, then forward, left and up each by itself, weighted least squares.
 */
export function bringIntoLine(points: readonly Vec3[], naming: Naming): Vec3[] {
  const named = points.flatMap((point, index) => {
    const place = landmarkPlaces[naming[index]!];
    return place === undefined ? [] : [{ point, place, weight: 1 / (place.sdMm[0] * place.sdMm[1]) }];
  });
  if (named.length < fewestNamed) return [...points];
  const total = named.reduce((sum, { weight }) => sum + weight, 0);
  const mean = (value: (one: (typeof named)[number]) => number): number =>
    named.reduce((sum, one) => sum + one.weight * value(one), 0) / total;
  const from = [0, 1, 2].map((axis) => mean(({ point }) => point[axis]!));
  const to = [0, 1, 2].map((axis) => mean(({ place }) => place.mm[axis]!));
  const across = mean(
    ({ point: p, place: { mm } }) => (p[0] - from[0]!) * (mm[1] - to[1]!) - (p[1] - from[1]!) * (mm[0] - to[0]!),
  );
  const along = mean(
    ({ point: p, place: { mm } }) => (p[0] - from[0]!) * (mm[0] - to[0]!) + (p[1] - from[1]!) * (mm[1] - to[1]!),
  );
  const heading = Math.atan2(across, along);
  const turned = (point: Vec3): Vec3 => turn([point[0] - from[0]!, point[1] - from[1]!, point[2] - from[2]!], heading);
  const size = [0, 1, 2].map((axis) => {
    const fit = mean(({ point, place }) => turned(point)[axis]! * (place.mm[axis]! - to[axis]!));
    const square = mean(({ point }) => turned(point)[axis]! ** 2);
    return square > 0 ? Math.min(sizes.most, Math.max(sizes.least, fit / square)) : 1;
  });
  return points.map((point) => turned(point).map((value, axis) => value * size[axis]! + to[axis]!) as Vec3);
}

/** 1 SD by which one part of a standing body lies elsewhere than on the adult, mm: sideways and fore-aft, and in height. */
const partShiftMm = { level: 40, up: 15 };
/** Keeps a foot of few markers from turning freely; mm2. */
const turnInertiaMm2 = 2000;

/**
 * Where the landmarks lie when each part of the body that moves by itself (trunk, pelvis, each knee, each foot) is brought
 * to its points, and each foot is turned to them. Parts without a named point stay.
 */
export function placesInParts(points: readonly Vec3[], naming: Naming): Vec3[] {
  const places = landmarkPlaces.map(({ mm }) => mm);
  for (const members of parts) {
    const named = members.flatMap((landmark) => {
      const point = points[naming.indexOf(landmark)];
      return point === undefined ? [] : [{ landmark, point }];
    });
    if (named.length === 0) continue;
    if (landmarkPlaces[members[0]!]!.part === 'foot' && named.length > 1) turnPart(places, members, named);
    for (let axis = 0; axis < 3; axis++) {
      const prior = 1 / (axis === 2 ? partShiftMm.up : partShiftMm.level) ** 2;
      let pull = 0;
      let hold = prior;
      for (const { landmark, point } of named) {
        const weight = 1 / landmarkPlaces[landmark]!.sdMm[axis]! ** 2;
        pull += weight * (point[axis]! - places[landmark]![axis]!);
        hold += weight;
      }
      for (const landmark of members) {
        const moved: [number, number, number] = [...places[landmark]!];
        moved[axis]! += pull / hold;
        places[landmark] = moved;
      }
    }
  }
  return places;
}

/** Landmarks of each part; knees and feet of each side by themselves. */
const parts: readonly number[][] = (() => {
  const groups = new Map<string, number[]>();
  landmarkPlaces.forEach(({ part, side }: LandmarkPlace, index) => {
    const key = part === 'knee' || part === 'foot' ? `${part} ${side}` : part;
    groups.set(key, [...(groups.get(key) ?? []), index]);
  });
  return [...groups.values()];
})();

function turnPart(
  places: Vec3[],
  members: readonly number[],
  named: readonly { readonly landmark: number; readonly point: Vec3 }[],
): void {
  const middle = (of: (one: (typeof named)[number]) => Vec3): [number, number] =>
    [0, 1].map((axis) => named.reduce((sum, one) => sum + of(one)[axis]!, 0) / named.length) as [number, number];
  const pivot = middle(({ landmark }) => places[landmark]!);
  const centre = middle(({ point }) => point);
  let across = 0;
  let along = turnInertiaMm2;
  for (const { landmark, point } of named) {
    const [px, py] = [places[landmark]![0] - pivot[0], places[landmark]![1] - pivot[1]];
    const [x, y] = [point[0] - centre[0], point[1] - centre[1]];
    across += px * y - py * x;
    along += px * x + py * y;
  }
  const heading = Math.atan2(across, along);
  for (const landmark of members) {
    const [x, y, z] = places[landmark]!;
    const [tx, ty] = turn([x - pivot[0], y - pivot[1], 0], heading);
    places[landmark] = [pivot[0] + tx, pivot[1] + ty, z];
  }
}

/** Turned about the vertical, counter-clockwise seen from above; radians. */
function turn([x, y, z]: Vec3, angle: number): Vec3 {
  return [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle), z];
}
