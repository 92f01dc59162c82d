import { createPointDecoder } from '../c3d/decode-points.ts';
import type { C3dFile } from '../c3d/read-c3d.ts';
import { isValidPoint } from '../c3d/read-points.ts';
import type { Vec3 } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { AveragedMarkers } from './average-window.ts';
import type { BodyAxes } from './body-axes.ts';

/** How a part of the body moved through a trial: from where it was in the window, mm; null where none of it is seen. */
export interface SwayCurve {
  readonly markers: readonly string[];
  readonly forwardMm: readonly (number | null)[];
  readonly leftMm: readonly (number | null)[];
}

export interface SwayCurves {
  /** Frames sampled, in the file's own numbering, evenly spread over the whole trial. */
  readonly frames: readonly number[];
  readonly pelvis: SwayCurve;
  readonly feet: SwayCurve;
}

const mostSamples = 100;

/**
 * Movement of pelvis and feet over the whole trial, at up to 100 single frames.
 * @param points index of the point that carries each marker of the set; -1 for none
 * @param averaged where the markers are in the window, lab axes
 * @param millimetres how many mm one file unit is
 */
export function swayCurves(
  file: C3dFile,
  points: ArrayLike<number>,
  set: MarkerSet,
  averaged: AveragedMarkers,
  { forward, left }: BodyAxes,
  millimetres: number,
): SwayCurves {
  const count = Math.min(mostSamples, file.frameCount);
  const indices = Array.from({ length: count }, (_, sample) =>
    count === 1 ? 0 : Math.round((sample * (file.frameCount - 1)) / (count - 1)),
  );
  const decode = createPointDecoder(file);
  const values = new Float32Array(file.pointCount * 4);
  const labels = { pelvis: set.bodyAxes.high, feet: set.bodyAxes.low };
  const groups = [labels.pelvis, labels.feet].map((names) =>
    names
      .map((name) => set.markers.findIndex((marker) => marker.label === name))
      .filter((marker) => marker >= 0 && points[marker]! >= 0 && averaged.visible[marker]! > 0),
  );
  const curves = groups.map(() => ({ forwardMm: [] as (number | null)[], leftMm: [] as (number | null)[] }));
  for (const frame of indices) {
    decode(frame, 1, values);
    groups.forEach((markers, group) => {
      const moved = meanMovement(values, markers, points, averaged.means, millimetres);
      curves[group]!.forwardMm.push(moved && along(moved, forward));
      curves[group]!.leftMm.push(moved && along(moved, left));
    });
  }
  const namesOf = (group: number): string[] => groups[group]!.map((marker) => set.markers[marker]!.label);
  return {
    frames: indices.map((index) => file.firstFrame + index),
    pelvis: { markers: namesOf(0), ...curves[0]! },
    feet: { markers: namesOf(1), ...curves[1]! },
  };
}

function meanMovement(
  values: Float32Array,
  markers: readonly number[],
  points: ArrayLike<number>,
  means: Float64Array,
  millimetres: number,
): Vec3 | null {
  const sum: Vec3 = [0, 0, 0];
  let seen = 0;
  for (const marker of markers) {
    const index = points[marker]! * 4;
    if (!isValidPoint(values, index)) continue;
    seen++;
    for (let axis = 0; axis < 3; axis++) sum[axis]! += values[index + axis]! * millimetres - means[marker * 3 + axis]!;
  }
  return seen === 0 ? null : [sum[0] / seen, sum[1] / seen, sum[2] / seen];
}

function along(moved: Vec3, axis: Vec3): number {
  return moved[0] * axis[0] + moved[1] * axis[1] + moved[2] * axis[2];
}
