import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { AnsweredTrial } from './history.ts';
import type { PracticeTrial } from './practice-trial.ts';
import { scoreVerdict, type WrittenVerdict } from './score-verdict.ts';

/** Label without its side: a trainee learns a landmark on both. */
export function landmarkOfMarker(set: MarkerSet, label: string): string {
  return set.markers.find((marker) => marker.label === label)?.stem ?? label;
}

/** What goes into the history when a trial was answered. */
export function answerTrial(
  { id, key }: PracticeTrial,
  written: WrittenVerdict,
  set: MarkerSet,
  session: Pick<AnsweredTrial, 'session' | 'trainee' | 'at' | 'number'>,
): AnsweredTrial {
  const scored = scoreVerdict(written, key).findings.map((finding) => ({
    ...finding,
    errorMm: finding.errorMm === null ? null : Math.round(finding.errorMm * 10) / 10,
    landmark: landmarkOfMarker(set, finding.marker),
  }));
  return { kind: 'answer', ...session, trial: id, basis: key.basis, written, scored };
}
