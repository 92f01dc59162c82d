import { unit, type Vec3 } from '../geometry/vector.ts';
import type { SegmentDefinition, SideOrMiddle } from '../marker-set/marker-set.ts';
import type { PlacingStep } from './placing-step.ts';

/** Slots of a segment's forward, up and outward. */
export type AxisSlots = readonly [number, number, number];

/**
 * Axes of a segment: up along its long axis, forward from its own line or square to its outward view, else the body's.
 */
export function segmentStep(
  segment: SegmentDefinition,
  slot: AxisSlots,
  slots: ReadonlyMap<string, number>,
  views: ReadonlyMap<string, number>,
): PlacingStep {
  const longFrom = segment.longAxis === null ? undefined : slots.get(segment.longAxis.from);
  const longTo = segment.longAxis === null ? undefined : slots.get(segment.longAxis.to);
  const forwardFrom = segment.forward === null ? undefined : slots.get(segment.forward.from);
  const forwardTo = segment.forward === null ? undefined : slots.get(segment.forward.to);
  const view = segment.outward === null ? undefined : views.get(segment.outward);
  const sign = segment.side === 'right' ? -1 : 1;
  return (x) => {
    let up: Vec3 = [0, 0, 1];
    if (longFrom !== undefined && longTo !== undefined) {
      up = unit(x[longTo]! - x[longFrom]!, x[longTo + 1]! - x[longFrom + 1]!, x[longTo + 2]! - x[longFrom + 2]!);
    }
    let forward: Vec3 = [1, 0, 0];
    if (forwardFrom !== undefined && forwardTo !== undefined) {
      forward = unit(x[forwardTo]! - x[forwardFrom]!, x[forwardTo + 1]! - x[forwardFrom + 1]!, 0);
    } else if (view !== undefined) {
      // Left of the segment is its outward view on the left side, its opposite on the right.
      const left: Vec3 = [sign * x[view]!, sign * x[view + 1]!, sign * x[view + 2]!];
      forward = unit(
        left[1] * up[2] - left[2] * up[1],
        left[2] * up[0] - left[0] * up[2],
        left[0] * up[1] - left[1] * up[0],
      );
    }
    const along = forward[0] * up[0] + forward[1] * up[1] + forward[2] * up[2];
    forward = unit(forward[0] - along * up[0], forward[1] - along * up[1], forward[2] - along * up[2]);
    setAxes(x, slot, ...forward, ...up, segment.side);
  };
}

/** Writes forward, up and outward; left is up x forward. */
export function setAxes(
  x: Float64Array,
  slot: AxisSlots,
  fx: number,
  fy: number,
  fz: number,
  ux: number,
  uy: number,
  uz: number,
  side: SideOrMiddle,
): void {
  const sign = side === 'right' ? -1 : 1;
  x[slot[0]] = fx;
  x[slot[0] + 1] = fy;
  x[slot[0] + 2] = fz;
  x[slot[1]] = ux;
  x[slot[1] + 1] = uy;
  x[slot[1] + 2] = uz;
  x[slot[2]] = sign * (uy * fz - uz * fy);
  x[slot[2] + 1] = sign * (uz * fx - ux * fz);
  x[slot[2] + 2] = sign * (ux * fy - uy * fx);
}
