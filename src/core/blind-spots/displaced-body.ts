import type { StandingBody } from '../pose/standing-body.ts';
import type { Displacement } from './displacement.ts';

/**
 * Places the markers of a body with a displacement of so many mm, the frame and every computed point carried along.
 * What comes back fills one array again and again: use it before the next call.
 */
export function displacer({ geometry, lab }: StandingBody): (displacement: Displacement, mm: number) => Float64Array {
  const moved = lab.slice();
  const positions = new Float64Array(geometry.size);
  const { forward, left, up } = geometry.axes(lab);
  return ({ shifts }, mm) => {
    moved.set(lab);
    for (const { marker, vector } of shifts) {
      for (let axis = 0; axis < 3; axis++) {
        moved[marker * 3 + axis]! +=
          mm * (vector[0] * forward[axis]! + vector[1] * left[axis]! + vector[2] * up[axis]!);
      }
    }
    geometry.place(moved, positions);
    return positions;
  };
}
