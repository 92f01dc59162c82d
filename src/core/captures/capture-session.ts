import type { Report } from '../report/report.ts';
import { type CaptureComparison, compareCaptures } from './compare-captures.ts';
import { isSameRecording } from './same-recording.ts';

/** One standing trial of this session, as it was checked. */
export interface Capture {
  /** From 1, in the order in which the trials were finished. */
  readonly number: number;
  /** Where it lies; a later file at the same place may be another capture. */
  readonly path: string;
  readonly report: Report;
  /** Times that this recording was written and checked: 1, or more where it was processed again. */
  readonly written: number;
  /** From 1; a new number where the body is another one. */
  readonly person: number;
  /** The capture it is compared with, and the comparison; null for the first of a person. */
  readonly against: { readonly number: number; readonly comparison: CaptureComparison } | null;
  /** How often this person was corrected and stood again, this capture included. */
  readonly corrections: number;
}

export type Captures = readonly Capture[];

/** `copy`: the same bytes were checked before; the captures stay as they were. */
export interface Added {
  readonly captures: Captures;
  readonly what: 'new' | 'replaced' | 'copy';
  /** The capture that came, took another's place, or was there already. */
  readonly capture: Capture;
}

/** What is kept of a day: older reports are let go, their numbers stay used. */
const mostKept = 500;

/** More than this and the patient has stood long enough. */
const correctionsBeforeStop = 2;

/**
 * Adds a checked trial to the captures of the session. The same bytes count once, wherever they lie. A file that was
 * unfinished when it was checked, and a recording that was processed again, take the place of what was there of them.
 */
export function addCapture(captures: Captures, path: string, report: Report): Added {
  const copy = captures.find(
    (capture) => capture.report.trial.sha256 === report.trial.sha256 && report.trial.sha256 !== '',
  );
  if (copy !== undefined) return { captures, what: 'copy', capture: copy };
  const replaced = captures.findLastIndex(
    (capture) => (capture.path === path && wasUnfinished(capture.report)) || isSameRecording(capture.report, report),
  );
  const earlier = replaced < 0 ? captures : captures.slice(0, replaced);
  const old = captures[replaced];
  const capture: Capture = {
    number: old?.number ?? (captures.at(-1)?.number ?? 0) + 1,
    path,
    report,
    written: (old?.written ?? 0) + 1,
    ...placeInSession(earlier, report, old),
  };
  const next = [...earlier, capture];
  // What came after it was compared with what it was before.
  for (const later of old === undefined ? [] : captures.slice(replaced + 1)) {
    next.push({ ...later, ...placeInSession(next, later.report) });
  }
  return { captures: next.slice(-mostKept), what: old === undefined ? 'new' : 'replaced', capture };
}

/** Whether this person has been corrected as often as one should ask of anybody. */
export function hasStoodLongEnough({ corrections }: Capture): boolean {
  return corrections >= correctionsBeforeStop;
}

function wasUnfinished({ problems }: Report): boolean {
  return problems.some(({ code }) => code === 'file-truncated' || code === 'file-unreadable');
}

function placeInSession(
  earlier: Captures,
  report: Report,
  old?: Capture,
): Pick<Capture, 'person' | 'against' | 'corrections'> {
  const last = earlier.at(-1);
  if (last === undefined) return { person: old?.person ?? 1, against: processedAgain(report, old), corrections: 0 };
  // A trial that cannot be judged tells nothing of the body: it is nobody else's, and the next is compared past it.
  const before = earlier.findLast((capture) => capture.person === last.person && capture.report.bodyAxes !== null);
  if (before === undefined || report.bodyAxes === null) {
    return { person: last.person, against: null, corrections: last.corrections };
  }
  const comparison = compareCaptures(before.report, report);
  if (comparison.kind === 'other-body') return { person: last.person + 1, against: null, corrections: 0 };
  const corrected = comparison.kind !== 'processed-again' && before.report.moves.length > 0;
  return {
    person: last.person,
    against: { number: before.number, comparison },
    corrections: last.corrections + (corrected ? 1 : 0),
  };
}

/** The first recording of a session has no other before it: processed again, it is compared with what it was. */
function processedAgain(report: Report, old: Capture | undefined): Capture['against'] {
  if (old === undefined || wasUnfinished(old.report)) return null;
  return { number: old.number, comparison: compareCaptures(old.report, report) };
}
