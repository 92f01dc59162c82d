import type { Vec3 } from '../geometry/vector.ts';
import { findSwaps, type Swap } from '../labels/find-swaps.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import { type AveragedMarkers, exchangeMarkers } from './average-window.ts';
import type { StandingPose } from './find-standing-pose.ts';

/** The pose as it would be with exchanged labels put right, so that everything else can still be checked. */
export function undoSwaps(pose: StandingPose, set: MarkerSet): { averaged: AveragedMarkers; swaps: Swap[] } {
  const swaps = findSwaps(inRoughBodyAxes(pose), set);
  let { averaged } = pose;
  for (const [a, b] of swaps.flatMap((swap) => swap.exchanges)) averaged = exchangeMarkers(averaged, a, b);
  return { averaged, swaps };
}

/** Forward, left and up as the whole body tells them, whatever the labels say about sides. */
function inRoughBodyAxes({ averaged: { means }, facing, vertical }: StandingPose): Float64Array {
  const axes: readonly Vec3[] = [facing.forward, facing.left, vertical.up];
  return means.map((_, index) => {
    const at = index - (index % 3);
    const axis = axes[index % 3]!;
    return axis[0] * means[at]! + axis[1] * means[at + 1]! + axis[2] * means[at + 2]!;
  });
}
