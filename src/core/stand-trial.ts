import { C3dError, type C3dFile, readC3d } from './c3d/read-c3d.ts';
import { chooseCarriers } from './labels/choose-carriers.ts';
import type { Swap } from './labels/find-swaps.ts';
import { matchLabels } from './labels/match-labels.ts';
import type { MarkerSet } from './marker-set/marker-set.ts';
import { findStandingPose, type StandingPose } from './pose/find-standing-pose.ts';
import type { FrameRange } from './pose/frame-range.ts';
import { findMarkerProblems, missingMarkers } from './pose/marker-problems.ts';
import { standOnFloor } from './pose/stand-on-floor.ts';
import type { StandingBody } from './pose/standing-body.ts';
import { undoSwaps } from './pose/undo-swaps.ts';
import { fileTruncated, fileUnreadable } from './problems/file-problems.ts';
import type { Problem } from './problems/problem.ts';
import { completeSession } from './session/complete-session.ts';
import type { Session } from './session/session.ts';

/** A trial with the person who stands in it, exchanged labels put right. */
export interface StoodTrial {
  readonly file: C3dFile;
  readonly pose: StandingPose;
  readonly body: StandingBody;
  /** Index of the point that carries each marker of the set, exchanged labels put right; -1 for none. */
  readonly points: Int32Array;
  readonly swaps: readonly Swap[];
  readonly problems: readonly Problem[];
  /** The session with what the trial itself adds to it. */
  readonly session: Session;
}

/** A trial that holds nobody standing, and why. */
export interface NobodyStanding {
  readonly file: C3dFile | null;
  readonly problems: readonly Problem[];
}

/**
 * Reads a trial and finds the person who stands in it: from bytes to one still body.
 * @param bytes a C3D file
 * @param frames judged in place of the quietest window (the file's own numbering)
 */
export function standTrial(
  bytes: Uint8Array,
  markerSet: MarkerSet,
  recorded: Session,
  frames: FrameRange | null,
): StoodTrial | NobodyStanding {
  let file: C3dFile;
  try {
    file = readC3d(bytes);
  } catch (error) {
    if (!(error instanceof C3dError)) throw error;
    return { file: null, problems: [fileUnreadable(error)] };
  }
  const session = completeSession(recorded, file, markerSet);
  const carriers = chooseCarriers(file, matchLabels(file.labels, file.pointCount, markerSet));
  const found = findStandingPose(file, carriers.points, markerSet, frames);
  const problems = [...fileTruncated(file), ...found.problems];
  if (found.pose === null) {
    const missing = markerSet.markers.filter(
      (marker, index) => marker.presence === 'required' && carriers.points[index]! < 0,
    );
    // That labels are missing comes first: it is mostly why nobody could be made out.
    const labels = missing.map((marker) => marker.label);
    return { file, problems: missing.length > 0 ? [missingMarkers(markerSet, labels), ...problems] : problems };
  }
  const { averaged, swaps } = undoSwaps(found.pose, markerSet);
  const pose = { ...found.pose, averaged };
  problems.push(...findMarkerProblems(markerSet, carriers.points, carriers.duplicates, pose));
  const body = standOnFloor(pose, markerSet, session);
  if (body === null) return { file, problems };
  return { file, pose, body, points: withoutSwaps(carriers.points, swaps), swaps, problems, session };
}

function withoutSwaps(points: Int32Array, swaps: readonly Swap[]): Int32Array {
  const righted = points.slice();
  for (const [a, b] of swaps.flatMap(({ exchanges }) => exchanges)) {
    [righted[a], righted[b]] = [righted[b]!, righted[a]!];
  }
  return righted;
}
