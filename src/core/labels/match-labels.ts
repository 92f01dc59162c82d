import { foldLabel } from '../marker-set/fold-label.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';

/** Which points of a trial carry each marker of the set. */
export interface LabelMatch {
  /** For each marker, in the set's order, the indices of the points whose label means it; several when duplicate. */
  readonly points: readonly (readonly number[])[];
}

/**
 * Matches labels as stored against the set's labels and aliases. Letter case, spaces and punctuation do not matter,
 * and a subject prefix (`NAME:R_GT`) is passed over. Labels beyond the point count stand for nothing.
 */
export function matchLabels(labels: readonly string[], pointCount: number, set: MarkerSet): LabelMatch {
  const markerOf = new Map<string, number>();
  set.markers.forEach((marker, index) => {
    for (const label of [marker.label, ...marker.aliases]) markerOf.set(foldLabel(label), index);
  });
  const points: number[][] = set.markers.map(() => []);
  for (let point = 0; point < Math.min(labels.length, pointCount); point++) {
    const marker = markerOf.get(foldLabel(labels[point]!)) ?? markerOf.get(foldLabel(withoutPrefix(labels[point]!)));
    if (marker !== undefined) points[marker]!.push(point);
  }
  return { points };
}

function withoutPrefix(label: string): string {
  return label.slice(label.lastIndexOf(':') + 1);
}
