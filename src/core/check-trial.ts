import { C3dError, type C3dFile, readC3d } from './c3d/read-c3d.ts';
import type { Norms } from './decision/norms.ts';
import { weighMarkers } from './decision/weigh-markers.ts';
import { chooseCarriers } from './labels/choose-carriers.ts';
import { matchLabels } from './labels/match-labels.ts';
import type { LoadedMarkerSet } from './marker-set/parse-marker-set.ts';
import { planMoves } from './moves/plan-moves.ts';
import { reportSwap } from './moves/propose-relabels.ts';
import { findStandingPose } from './pose/find-standing-pose.ts';
import { findMarkerProblems, missingMarkers } from './pose/marker-problems.ts';
import { standOnFloor } from './pose/stand-on-floor.ts';
import { undoSwaps } from './pose/undo-swaps.ts';
import { fileTruncated, fileUnreadable } from './problems/file-problems.ts';
import { assembleEmptyReport, assembleReport, type TrialSource } from './report/assemble-report.ts';
import type { Report } from './report/report.ts';
import { assessRules, isAssessed } from './rules/assess-rules.ts';
import { assessStance } from './rules/assess-stance.ts';
import { expectedRules } from './rules/expected-rules.ts';
import type { Session } from './session/session.ts';

/**
 * Reads a standing trial, checks the markers against what the laboratory and the patient's own facts let expect, and
 * says which one needs a hand, which way and how far.
 *
 * Pure: the same bytes, set and session give the same report. A trial that cannot be read or holds nobody standing
 * gives a report that says so; nothing is thrown for it.
 *
 * @param bytes a C3D file
 * @param source path and hash go into the report as they are; `frames` (the file's own numbering) replaces the
 *   quietest window
 */
export function checkTrial(
  bytes: Uint8Array,
  markerSet: LoadedMarkerSet,
  session: Session,
  source: TrialSource,
  norms: Norms | null = null,
): Report {
  let file: C3dFile;
  try {
    file = readC3d(bytes);
  } catch (error) {
    if (!(error instanceof C3dError)) throw error;
    return assembleEmptyReport(null, [fileUnreadable(error)], markerSet, session, source, norms);
  }
  const carriers = chooseCarriers(file, matchLabels(file.labels, file.pointCount, markerSet));
  const found = findStandingPose(file, carriers.points, markerSet, source.frames ?? null);
  const problems = [...fileTruncated(file), ...found.problems];
  if (found.pose === null) {
    const missing = markerSet.markers.filter(
      (marker, index) => marker.presence === 'required' && carriers.points[index]! < 0,
    );
    // That labels are missing comes first: it is mostly why nobody could be made out.
    if (missing.length > 0)
      problems.unshift(
        missingMarkers(
          markerSet,
          missing.map((marker) => marker.label),
        ),
      );
    return assembleEmptyReport(file, problems, markerSet, session, source, norms);
  }
  const { averaged, swaps } = undoSwaps(found.pose, markerSet);
  const pose = { ...found.pose, averaged };
  problems.push(...findMarkerProblems(markerSet, carriers.points, carriers.duplicates, pose));
  const relabels = swaps.map((swap) => reportSwap(swap, markerSet, (marker) => averaged.visible[marker]! > 0));
  problems.push(...relabels.map(({ problem }) => problem));

  const body = standOnFloor(pose, markerSet, session);
  if (body === null) return assembleEmptyReport(file, problems, markerSet, session, source, norms);
  const stance = assessStance(body, markerSet, session);
  const outcomes = assessRules(body, expectedRules(markerSet, session), session);
  const plan = planMoves(
    body,
    outcomes,
    stance,
    relabels.map(({ proposal }) => proposal),
    session,
    () => (norms === null ? null : weighMarkers(body, outcomes.filter(isAssessed), norms, confirmedMarkers(session))),
  );
  return assembleReport({ file, pose, body, stance, outcomes, plan, problems }, markerSet, session, source, norms);
}

function confirmedMarkers(session: Session): ReadonlySet<string> {
  return new Set(session.confirmed.map(({ marker }) => marker));
}
