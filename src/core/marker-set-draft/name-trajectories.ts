import { distance, type Vec3 } from '../geometry/vector.ts';
import { assignLandmarks, type Naming } from './assign-landmarks.ts';
import { bringIntoLine } from './bring-into-line.ts';
import { mirrorOf, namingCost } from './judge-naming.ts';
import { type LandmarkPlace, landmarkPlaces } from './landmark-places.ts';
import { possiblePoses } from './possible-poses.ts';

/** What a trajectory is taken for. */
export interface NamedTrajectory {
  /** Null where it is taken for none. */
  readonly landmark: LandmarkPlace | null;
  /** Probability of that among what else it could be, all other names as they are or exchanged with it. */
  readonly confidence: number;
  /** The next best; null for "none of them". */
  readonly rival: LandmarkPlace | null;
}

/** Fewer points do not tell how somebody stands. */
export const fewestPoints = 8;
const spreads = [2, 1.5, 1.5, 1];
const mostRounds = 6;
/** Landmarks are not independent of each other, as the costs take them to be: what they say counts half. */
const doubt = 2;

/**
 * Proposes which trajectory of a standing trial is which landmark, from where they lie alone: no labels, any axis up, any
 * heading, any unit. Every way of standing is tried and its points are assigned and brought into line in turn; the best is
 * then improved name by name, with right and left, and every part of the body, judged together.
 *
 * @param points mean position of each trajectory, lab axes, one unit for all
 * @returns one entry for each point; none named where there are fewer than eight points
 */
export function nameTrajectories(points: readonly Vec3[]): NamedTrajectory[] {
  const onBody = onOneBody(points);
  const nothing: NamedTrajectory = { landmark: null, confidence: 1, rival: null };
  if (onBody.length < fewestPoints) return points.map(() => nothing);
  const start = bestPose(onBody.map((index) => points[index]!));
  const naming = improve(start.points, start.naming);
  const named = new Map(onBody.map((index, place) => [index, withRivals(start.points, naming, place)]));
  return points.map((_, index) => named.get(index) ?? nothing);
}

/** Neighbours on a body are no further apart than this, as a share of how far most points lie from the middle. */
const widestGap = 1.3;

/** Indices of the largest group of points that hang together by neighbours, without what lies about in the room. */
function onOneBody(points: readonly Vec3[]): number[] {
  const middle = [0, 1, 2].map((axis) =>
    quantile(
      points.map((point) => point[axis]!),
      0.5,
    ),
  ) as Vec3;
  const gap =
    widestGap *
    quantile(
      points.map((point) => distance(point, middle)),
      0.75,
    );
  let largest: number[] = [];
  const free = new Set(points.keys());
  for (const first of points.keys()) {
    if (!free.delete(first)) continue;
    const group = [first];
    for (const member of group) {
      for (const other of free) {
        if (distance(points[member]!, points[other]!) > gap) continue;
        free.delete(other);
        group.push(other);
      }
    }
    if (group.length > largest.length) largest = group;
  }
  return largest.sort((a, b) => a - b);
}

function quantile(values: readonly number[], share: number): number {
  return values.toSorted((a, b) => a - b)[Math.floor(share * (values.length - 1))] ?? 0;
}

function bestPose(points: readonly Vec3[]): { points: Vec3[]; naming: Naming } {
  let best: { points: Vec3[]; naming: Naming; cost: number } | null = null;
  for (const pose of possiblePoses(points)) {
    let standing = pose;
    let found = assignLandmarks(standing, spreads[0]!);
    for (const spread of spreads) {
      standing = bringIntoLine(standing, found.naming);
      found = assignLandmarks(standing, spread);
    }
    if (best === null || found.cost < best.cost) best = { points: standing, ...found };
  }
  return best!;
}

/** Renames one point, two, or a pair of both sides, as long as that fits better. */
function improve(points: readonly Vec3[], start: Naming): Naming {
  let naming = start;
  let cost = namingCost(points, naming);
  for (let round = 0; round < mostRounds; round++) {
    const before = cost;
    for (let point = 0; point < points.length; point++) {
      for (let landmark = -1; landmark < landmarkPlaces.length; landmark++) {
        for (const renamed of [renamedTo(naming, point, landmark), renamedOnBothSides(naming, point, landmark)]) {
          if (renamed === null) continue;
          const now = namingCost(points, renamed);
          if (now < cost - 1e-9) [naming, cost] = [renamed, now];
        }
      }
    }
    if (cost === before) break;
  }
  return naming;
}

/** A point given a landmark; whichever point had it takes the old one. Null where nothing changes. */
function renamedTo(naming: Naming, point: number, landmark: number): Naming | null {
  if (naming[point] === landmark) return null;
  const renamed = naming.slice();
  const holder = landmark < 0 ? -1 : naming.indexOf(landmark);
  if (holder >= 0) renamed[holder] = naming[point]!;
  renamed[point] = landmark;
  return renamed;
}

/** The same on the other side, for a point whose landmark is named there. */
function renamedOnBothSides(naming: Naming, point: number, landmark: number): Naming | null {
  const here = naming[point]!;
  if (here < 0 || landmark < 0 || mirrorOf[here]! < 0 || mirrorOf[landmark]! < 0) return null;
  if (landmarkPlaces[here]!.side !== landmarkPlaces[landmark]!.side) return null;
  const there = naming.indexOf(mirrorOf[here]!);
  const renamed = there < 0 ? null : renamedTo(naming, point, landmark);
  return renamed === null ? null : renamedTo(renamed, there, mirrorOf[landmark]!);
}

/** How probable a name is, against every other that the point could bear instead, alone or with the other side. */
function withRivals(points: readonly Vec3[], naming: Naming, point: number): NamedTrajectory {
  const cost = namingCost(points, naming);
  let others = 0;
  let nearest = { landmark: -1, cost: Number.POSITIVE_INFINITY };
  for (let landmark = -1; landmark < landmarkPlaces.length; landmark++) {
    const costs = [renamedTo(naming, point, landmark), renamedOnBothSides(naming, point, landmark)].flatMap(
      (renamed) => (renamed === null ? [] : [namingCost(points, renamed)]),
    );
    if (costs.length === 0) continue;
    const least = Math.min(...costs);
    others += Math.exp((cost - least) / (2 * doubt));
    if (least < nearest.cost) nearest = { landmark, cost: least };
  }
  return {
    landmark: landmarkPlaces[naming[point]!] ?? null,
    confidence: 1 / (1 + others),
    rival: landmarkPlaces[nearest.landmark] ?? null,
  };
}
