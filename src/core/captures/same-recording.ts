import { distance } from '../geometry/vector.ts';
import type { Report } from '../report/report.ts';
import { leastMarkers, placeOf, sharedMarkers } from './same-body.ts';

/**
 * Means and sway of most markers, mm: of one recording they are the same but for the last digits, of two never, not even
 * on a mannequin.
 */
const sameRecordingMm = 0.003;

/**
 * Whether two trials are one recording, processed twice. Corrected labels may exchange some markers, so more than half of
 * them have to be where they were.
 */
export function isSameRecording(before: Report, now: Report): boolean {
  if (before.trial.frames !== now.trial.frames) return false;
  const shared = sharedMarkers(before, now);
  const still = shared.filter(
    (label) =>
      distance(placeOf(before, label), placeOf(now, label)) < sameRecordingMm &&
      Math.abs(before.markers[label]!.sdMm - now.markers[label]!.sdMm) < sameRecordingMm,
  );
  return still.length >= leastMarkers && still.length * 2 > shared.length;
}
