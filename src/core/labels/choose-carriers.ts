import type { C3dFile } from '../c3d/read-c3d.ts';
import { forEachPointBlock, isValidPoint } from '../c3d/read-points.ts';
import type { LabelMatch } from './match-labels.ts';

export interface Carriers {
  /** For each marker the index of the point that carries it; -1 for none. */
  readonly points: Int32Array;
  /** Markers for which several points have a label. */
  readonly duplicates: readonly number[];
}

/** Where several points bear a marker's label, the one that is visible most; the first of equals. */
export function chooseCarriers(file: C3dFile, match: LabelMatch): Carriers {
  const points = Int32Array.from(match.points, (candidates) => candidates[0] ?? -1);
  const duplicates = match.points.flatMap((candidates, marker) => (candidates.length > 1 ? [marker] : []));
  if (duplicates.length === 0) return { points, duplicates };
  const valid = new Int32Array(file.pointCount);
  const watched = duplicates.flatMap((marker) => match.points[marker]!);
  forEachPointBlock(file, 256, (values, _first, count) => {
    for (let frame = 0; frame < count; frame++) {
      for (const point of watched) {
        if (isValidPoint(values, (frame * file.pointCount + point) * 4)) valid[point]! += 1;
      }
    }
  });
  for (const marker of duplicates) {
    points[marker] = match.points[marker]!.reduce((best, point) => (valid[point]! > valid[best]! ? point : best));
  }
  return { points, duplicates };
}
