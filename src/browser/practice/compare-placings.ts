import { isSameRecording } from '../../core/captures/same-recording.ts';
import { checkTrial } from '../../core/check-trial.ts';
import type { ComparedCapture } from '../../core/compare/compare-trials.ts';
import type { LoadedMarkerSet } from '../../core/marker-set/parse-marker-set.ts';
import { doubtPlacings } from '../../core/practice/doubt-placings.ts';
import { historyLine } from '../../core/practice/history.ts';
import { repeatedPlacement } from '../../core/practice/repeat-placing.ts';
import { tellRepeat } from '../../core/practice/repeat-rows.ts';
import { repeatLine } from '../../core/practice/round-repeat.ts';
import { escapeControls } from '../../core/report/escape-controls.ts';
import { emptySession } from '../../core/session/session.ts';
import { standTrial } from '../../core/stand-trial.ts';
import type { PracticeAnswer, RepeatOrder } from '../messages.ts';

/** One subject who was marked anew, from the trials that were chosen, in the order of their names. */
export async function comparePlacings(
  { files, trainee, at }: RepeatOrder['repeat'],
  set: LoadedMarkerSet,
  hashOf: (bytes: Uint8Array) => Promise<string>,
): Promise<PracticeAnswer> {
  if (files.length < 2) return { failed: 'Choose two standing trials of one subject who was marked anew, or more.' };
  const placings: Pick<ComparedCapture, 'body' | 'report'>[] = [];
  for (const { name, bytes } of [...files].sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const stood = standTrial(bytes, set, emptySession, null);
    if (!('body' in stood)) {
      return { failed: `${escapeControls(name)}: ${stood.problems[0]?.message ?? 'holds nobody standing.'}` };
    }
    const report = checkTrial(bytes, set, emptySession, { path: '', sha256: await hashOf(bytes) });
    if (placings.some((earlier) => isSameRecording(earlier.report, report))) {
      return {
        failed: `${escapeControls(name)} is a recording that was chosen already; give a trial of each placing.`,
      };
    }
    placings.push({ body: stood.body, report });
  }
  const doubts = doubtPlacings(placings.map(({ report }) => report));
  const repeated = repeatedPlacement(placings.map(({ body }) => body));
  const isKept = trainee !== '' && doubts.length === 0;
  return {
    repeated: tellRepeat(repeated, doubts, set),
    lines: isKept ? [historyLine(repeatLine(repeated, { trainee, at, markerSet: set.name }))] : [],
  };
}
