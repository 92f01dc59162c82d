import type { MarkerPositions } from '../../sample-trials/landmarks.ts';
import { add, cross, direction, scale, type Vec3 } from '../../src/core/geometry/vector.ts';
import type { Move } from '../../src/core/moves/move.ts';

/** Where the markers are when somebody has done what the moves say, one after the other. */
export function carryOut(moves: readonly Move[], positions: MarkerPositions): MarkerPositions {
  let current = positions;
  for (const { marker, mm, side } of moves) {
    if (marker === undefined || mm === undefined) continue;
    const [right, left] = [current.get('R_ASIS')!, current.get('L_ASIS')!];
    const leftward = direction([left[0] - right[0], left[1] - right[1], 0])!;
    const forward = cross(leftward, [0, 0, 1]);
    const toLeft = 'left' in mm ? mm.left : (side === 'right' ? -1 : 1) * mm.outward;
    const shift: Vec3 = add(add(scale(forward, mm.forward), scale(leftward, toLeft)), [0, 0, mm.up]);
    current = new Map(current).set(marker, add(current.get(marker)!, shift));
  }
  return current;
}
