import type { Vec3 } from '../geometry/vector.ts';
import { landmarkPlaces } from './landmark-places.ts';

const headings = 24;
/** An axis along which the points reach less than this share of the longest is not the vertical of somebody who stands. */
const leastReach = 0.8;
const heightOf = (stem: string): number => landmarkPlaces.find((place) => place.stem === stem)!.mm[2];
/** What the highest marker may be: trunk markers, or the pelvis behind or in front. */
const highest = ['C7', 'PSIS', 'ASIS'].map(heightOf);
const lowest = Math.min(...landmarkPlaces.map(({ mm }) => mm[2]));
const middleForward = -90;

/**
 * The points as they would lie on the average adult for every way in which somebody may stand in the room: whichever axis
 * is up, wherever they face, whatever the unit. Sizes are brought to the adult's by the height of the highest marker.
 */
export function* possiblePoses(points: readonly Vec3[]): Generator<Vec3[]> {
  const reach = [0, 1, 2].map((axis) => extent(points.map((point) => point[axis]!)));
  for (let axis = 0; axis < 3; axis++) {
    if (reach[axis]! < leastReach * Math.max(...reach)) continue;
    for (const sign of [1, -1]) {
      // The two axes that complete a right-handed frame with the vertical.
      const [a, b] = sign > 0 ? [(axis + 1) % 3, (axis + 2) % 3] : [(axis + 2) % 3, (axis + 1) % 3];
      const up = points.map((point) => sign * point[axis]!);
      const floor = Math.min(...up);
      for (const top of highest) {
        const size = (top - lowest) / (Math.max(...up) - floor);
        for (let step = 0; step < headings; step++) {
          const turn = (2 * Math.PI * step) / headings;
          yield centred(
            points.map((point, index) => [
              size * (point[a]! * Math.cos(turn) + point[b]! * Math.sin(turn)),
              size * (point[b]! * Math.cos(turn) - point[a]! * Math.sin(turn)),
              size * (up[index]! - floor) + lowest,
            ]),
          );
        }
      }
    }
  }
}

function extent(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}

function centred(points: readonly Vec3[]): Vec3[] {
  const middle = [0, 1].map((axis) => {
    const values = points.map((point) => point[axis]!);
    return (Math.max(...values) + Math.min(...values)) / 2;
  });
  return points.map(([x, y, z]) => [x - middle[0]! + middleForward, y - middle[1]!, z]);
}
