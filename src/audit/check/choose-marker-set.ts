import { matchLabels } from '../../core/labels/match-labels.ts';
import type { MarkerSet } from '../../core/marker-set/marker-set.ts';

/**
 * The set that a trial's labels fit best: the largest share of its required markers is there, then the most markers;
 * where that ties, the first.
 */
export function chooseMarkerSet<Candidate extends { readonly markerSet: MarkerSet }>(
  candidates: readonly Candidate[],
  labels: readonly string[],
  pointCount: number,
): Candidate {
  let best = candidates[0]!;
  let bestFit: readonly [share: number, markers: number] = [-1, -1];
  for (const candidate of candidates) {
    const { markers } = candidate.markerSet;
    const { points } = matchLabels(labels, pointCount, candidate.markerSet);
    const there = markers.filter((_, index) => points[index]!.length > 0);
    const isRequired = ({ presence }: { readonly presence: string }) => presence === 'required';
    const fit = [there.filter(isRequired).length / markers.filter(isRequired).length, there.length] as const;
    if (fit[0] > bestFit[0] || (fit[0] === bestFit[0] && fit[1] > bestFit[1])) {
      best = candidate;
      bestFit = fit;
    }
  }
  return best;
}
