import type { C3dFile } from '../c3d/read-c3d.ts';
import type { ReadingAgainstMarkers } from '../decision/doubt-readings.ts';
import type { Norms } from '../decision/norms.ts';
import type { StandingLoad } from '../force-plates/standing-load.ts';
import type { LoadedMarkerSet } from '../marker-set/parse-marker-set.ts';
import type { SheetFinding } from '../measurements/sheet-finding.ts';
import type { KeptDeviation } from '../moves/plan-kept.ts';
import type { MovePlan } from '../moves/plan-moves.ts';
import type { StandingPose } from '../pose/find-standing-pose.ts';
import { millimetresPer } from '../pose/length-unit.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { swayCurves } from '../pose/sway-curves.ts';
import type { Problem } from '../problems/problem.ts';
import { at } from '../rule-kinds/positions.ts';
import type { RuleOutcome } from '../rules/assess-rules.ts';
import type { StanceOutcome } from '../rules/assess-stance.ts';
import { sayValue } from '../rules/rule-words.ts';
import { measuredKg } from '../session/measured.ts';
import type { Session } from '../session/session.ts';
import type { NotCompared } from '../sheet-against-trial/sheet-comparison.ts';
import { toolVersion } from '../version.ts';
import { deriveFigure } from './derive-figure.ts';
import type { Report, ReportedMarker } from './report.ts';
import { reportAngles } from './report-angles.ts';
import { reportComparisons } from './report-comparisons.ts';
import { reportNotes } from './report-notes.ts';
import { reportPlates } from './report-plates.ts';
import { openEnd, reportRule } from './report-rule.ts';
import { coverageOf, verdictOf } from './verdict.ts';

/** Where a trial came from, and frames asked for in place of the quietest window (the file's own numbering). */
export interface TrialSource {
  readonly path: string;
  readonly sha256: string;
  readonly frames?: { readonly first: number; readonly last: number };
}

export interface CheckedTrial {
  readonly file: C3dFile;
  readonly pose: StandingPose;
  readonly body: StandingBody;
  readonly points: Int32Array;
  readonly stance: readonly StanceOutcome[];
  readonly load: StandingLoad | null;
  readonly outcomes: readonly RuleOutcome[];
  readonly plan: MovePlan;
  readonly kept: readonly KeptDeviation[];
  readonly problems: readonly Problem[];
  readonly measurements: readonly SheetFinding[];
  readonly compared: readonly ReadingAgainstMarkers[];
  readonly notCompared: readonly NotCompared[];
}

/** A report of everything that was checked. Figures are unrounded here; they are rounded once, when written. */
export function assembleReport(
  {
    file,
    pose,
    body,
    points,
    stance,
    load,
    outcomes,
    plan,
    kept,
    problems,
    measurements,
    compared,
    notCompared,
  }: CheckedTrial,
  set: LoadedMarkerSet,
  session: Session,
  source: TrialSource,
  norms: Norms | null,
): Report {
  const { window } = pose;
  const coverage = coverageOf(outcomes, set, body.geometry.has);
  const axes = body.geometry.axes(body.lab);
  const { forward, left, up } = axes;
  return {
    ...heading(set, session, norms),
    verdict: verdictOf(coverage, outcomes, problems, measurements),
    coverage,
    trial: {
      path: source.path,
      sha256: source.sha256,
      frames: file.frameCount,
      rateHz: file.rateHz,
      units: pose.unit,
      vertical: pose.vertical.axis,
      window: {
        firstFrame: file.firstFrame + window.first,
        lastFrame: file.firstFrame + window.first + window.count - 1,
        swayMm: window.swayMm,
      },
    },
    bodyAxes: { forward, left, up },
    markers: reportMarkers(body),
    figure: deriveFigure(body),
    sway: swayCurves(file, points, set, body.averaged, axes, millimetresPer[pose.unit]!),
    stance: {
      measures: stance.map(({ item, description: { value, bounds }, status, estimated }) => ({
        id: item.id,
        title: item.title,
        side: item.side,
        value,
        unit: item.unit,
        range: [openEnd(bounds.low), openEnd(bounds.high)],
        status,
        estimated,
        says: sayValue(item, value, bounds),
      })),
      loadShare: load === null ? null : load.loadShare,
    },
    angles: reportAngles(body, set, session),
    plates: load && reportPlates(load, body, measuredKg(session)),
    rules: outcomes.map((outcome) => reportRule(outcome, set, body.geometry.has)),
    measurements,
    sheetAgainstTrial: reportComparisons(compared, notCompared),
    moves: plan.moves,
    stillFailing: plan.stillFailing,
    kept,
    notes: reportNotes(body, outcomes, stance, plan, set, session),
    problems,
  };
}

/** A report of a trial in which nothing could be judged. */
export function assembleEmptyReport(
  file: C3dFile | null,
  problems: readonly Problem[],
  set: LoadedMarkerSet,
  session: Session,
  source: TrialSource,
  norms: Norms | null,
): Report {
  const outcomes = set.rules.map((rule) => ({
    rule,
    status: 'not-assessed' as const,
    reason: 'nothing could be judged in this trial',
  }));
  return {
    ...heading(set, session, norms),
    verdict: 'not-assessable',
    coverage: coverageOf(outcomes, set, () => false),
    trial: {
      path: source.path,
      sha256: source.sha256,
      frames: file?.frameCount ?? null,
      rateHz: file?.rateHz ?? null,
      units: file?.units ?? null,
      vertical: null,
      window: null,
    },
    bodyAxes: null,
    markers: {},
    figure: null,
    sway: null,
    stance: null,
    angles: null,
    plates: null,
    rules: outcomes.map((outcome) => reportRule(outcome, set, () => false)),
    measurements: [],
    sheetAgainstTrial: null,
    moves: [],
    stillFailing: [],
    kept: [],
    notes: [],
    problems,
  };
}

function heading(set: LoadedMarkerSet, session: Session, norms: Norms | null) {
  return {
    format: 'setsquare-report/1' as const,
    tool: { version: toolVersion },
    subject: { code: session.subject.code },
    markerSet: { name: set.name, version: set.version, sha256: set.sha256 },
    norms: norms === null ? null : { name: norms.name, version: norms.version, origin: norms.origin },
  };
}

function reportMarkers({ set, geometry, positions, averaged }: StandingBody): Record<string, ReportedMarker> {
  const entries = set.markers.flatMap((marker, index): [string, ReportedMarker][] =>
    geometry.has(marker.label)
      ? [
          [
            marker.label,
            {
              mm: at(positions, index * 3),
              sdMm: averaged.sdMm[index]!,
              visible: averaged.visible[index]!,
              called: marker.called,
              side: marker.side,
            },
          ],
        ]
      : [],
  );
  return Object.fromEntries(entries);
}
