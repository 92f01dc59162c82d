import { type CaptureComparison, compareCaptures } from '../captures/compare-captures.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import type { Report } from '../report/report.ts';
import type { Session } from '../session/session.ts';
import { type JointAngleDifference, jointAngleDifferences } from './joint-angle-differences.ts';
import { looseShift, type PlacementDifference, placementDifferences } from './placement-differences.ts';
import { type SameMarking, sameMarking } from './same-marking.ts';

/** One capture as it was checked, with the body that stood in it. */
export interface ComparedCapture {
  readonly report: Report;
  readonly body: StandingBody;
  /** What was recorded of the patient, with what the trial itself adds to it. */
  readonly recorded: Session;
}

/** How somebody stands now against before. */
export interface PostureDifference {
  readonly id: string;
  readonly title: string;
  readonly side: string;
  readonly unit: string;
  readonly before: number;
  readonly now: number;
}

/** One capture of a subject against another of the same. */
export interface TrialComparison {
  readonly marking: SameMarking;
  readonly placement: readonly PlacementDifference[];
  readonly angles: readonly JointAngleDifference[];
  readonly posture: readonly PostureDifference[];
  /** Markers that are on in one of them alone. */
  readonly onlyBefore: readonly string[];
  readonly onlyNow: readonly string[];
  /** What became of the steps asked for, where it is the same marking: nobody took markers off in between. */
  readonly steps: CaptureComparison | null;
}

/**
 * Compares two captures of one subject: how each marker sits on its segment, and, apart from that, how the person stands.
 */
export function compareTrials(before: ComparedCapture, now: ComparedCapture): TrialComparison {
  const asked = new Set(before.report.moves.flatMap(({ marker, mm }) => (marker && mm ? [marker] : [])));
  const steps = compareCaptures(before.report, now.report, (marker) =>
    looseShift(before.body, now.body, marker, new Set([...asked, marker])),
  );
  // Whatever was moved, the one that was asked or another in its place, tells nothing of where its segment is.
  const loose = new Set(steps.steps.flatMap(({ marker, movedMm }) => (marker && movedMm !== null ? [marker] : [])));
  const [then, today] = [before, now].map(({ report }) => Object.keys(report.markers)) as [string[], string[]];
  return {
    marking: sameMarking(before, now),
    placement: placementDifferences(before.body, now.body, loose),
    angles: jointAngleDifferences(before, now, loose),
    posture: postureDifferences(before.report, now.report),
    onlyBefore: then.filter((label) => !today.includes(label)),
    onlyNow: today.filter((label) => !then.includes(label)),
    steps: steps.kind === 'captured-again' || steps.kind === 'processed-again' ? steps : null,
  };
}

function postureDifferences(before: Report, now: Report): PostureDifference[] {
  return (before.stance?.measures ?? []).flatMap(({ id, title, side, unit, value }): PostureDifference[] => {
    const today = now.stance?.measures.find((measure) => measure.id === id);
    return today === undefined ? [] : [{ id, title, side, unit, before: value, now: today.value }];
  });
}
