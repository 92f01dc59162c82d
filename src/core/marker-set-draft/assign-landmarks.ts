import munkres from 'munkres';
import type { Vec3 } from '../geometry/vector.ts';
import { landmarkPlaces } from './landmark-places.ts';

/** For each point the index of its landmark; -1 for a point that is none. */
export type Naming = Int32Array;

/** What it costs to leave a point unnamed, in squared standard deviations. */
export const unnamedCost = 28;
const mostPerPair = 200;

/**
 * Gives each point at most one landmark, and each landmark at most one point, so that together they lie nearest to where
 * landmarks lie on the average adult: the assignment problem, solved by Munkres' algorithm (J SIAM 5:32-38, 1957).
 * @param spread factor on how far people differ; wide while the pose is only roughly right
 */
export function assignLandmarks(points: readonly Vec3[], spread: number): { naming: Naming; cost: number } {
  const costs = points.map((point) => [
    ...landmarkPlaces.map((place) => Math.min(mostPerPair, placeCost(point, place.mm, place.sdMm, spread))),
    ...points.map(() => unnamedCost),
  ]);
  const naming: Naming = new Int32Array(points.length).fill(-1);
  let cost = 0;
  for (const [point, landmark] of munkres(costs)) {
    cost += costs[point]![landmark]!;
    if (landmark < landmarkPlaces.length) naming[point] = landmark;
  }
  return { naming, cost };
}

const usualVolume = 20 ** 3;

/** Twice the negative log density of a point about a place, but for a constant. */
export function placeCost(point: Vec3, place: Vec3, sdMm: Vec3, spread = 1): number {
  let cost = 2 * Math.log((sdMm[0] * sdMm[1] * sdMm[2]) / usualVolume);
  for (let axis = 0; axis < 3; axis++) cost += ((point[axis]! - place[axis]!) / (sdMm[axis]! * spread)) ** 2;
  return cost;
}
