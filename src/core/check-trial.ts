import { doubtReadings, needsWeighing, readingsAgainstMarkers } from './decision/doubt-readings.ts';
import type { Norms } from './decision/norms.ts';
import { type WeighedMarkers, weighMarkers } from './decision/weigh-markers.ts';
import type { RuleDefinition } from './marker-set/marker-set.ts';
import type { LoadedMarkerSet } from './marker-set/parse-marker-set.ts';
import { checkSheet, isConfirmed, settle } from './measurements/check-sheet.ts';
import type { SheetFinding } from './measurements/sheet-finding.ts';
import { planKept } from './moves/plan-kept.ts';
import { planMoves } from './moves/plan-moves.ts';
import { proposeMeasureAgain } from './moves/propose-measure-again.ts';
import { reportSwap } from './moves/propose-relabels.ts';
import { assembleEmptyReport, assembleReport, type TrialSource } from './report/assemble-report.ts';
import type { Report } from './report/report.ts';
import { ruleKinds } from './rule-kinds/all-rule-kinds.ts';
import { assessLoad } from './rules/assess-load.ts';
import { type AssessedRule, assessRules, isAssessed } from './rules/assess-rules.ts';
import { assessStance } from './rules/assess-stance.ts';
import { expectedRules } from './rules/expected-rules.ts';
import type { Session } from './session/session.ts';
import { compareSheet } from './sheet-against-trial/compare-sheet.ts';
import { standTrial } from './stand-trial.ts';

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
  recorded: Session,
  source: TrialSource,
  norms: Norms | null = null,
): Report {
  const stood = standTrial(bytes, markerSet, recorded, source.frames ?? null);
  if (!('body' in stood)) return assembleEmptyReport(stood.file, stood.problems, markerSet, recorded, source, norms);
  const { body, session } = stood;
  const relabels = stood.swaps.map((swap) =>
    reportSwap(swap, markerSet, (marker) => body.averaged.visible[marker]! > 0),
  );
  const load = assessLoad(stood.file, stood.pose, body, session);
  const problems = [...stood.problems, ...relabels.map(({ problem }) => problem), ...(load?.problems ?? [])];
  const stance = assessStance(body, markerSet, session);
  const outcomes = assessRules(body, expectedRules(markerSet, session), session);
  const ownFindings = session.measurements.length === 0 ? [] : checkSheet(session);
  const sheet = compareSheet(body, session, ownFindings, stance);
  const weighBy = (assessed: readonly AssessedRule[]): WeighedMarkers | null =>
    norms === null ? null : weighMarkers(body, assessed, norms, confirmedMarkers(session), sheet);
  const weigh = once(() => weighBy(outcomes.filter(isAssessed)));
  const compared = sheet === null ? [] : readingsAgainstMarkers(body, sheet);
  const failing = new Set(outcomes.flatMap(({ rule, status }) => (status === 'fail' ? rule.mayMove : [])));
  const measurements =
    sheet !== null && needsWeighing(compared, ownFindings)
      ? doubtReadings(body, sheet, compared, ownFindings, weigh(), failing, (reading) =>
          isConfirmed(reading, session),
        ).map((finding) => settle(finding, session))
      : ownFindings;
  const plan = planMoves(
    body,
    outcomes.filter(({ rule }) => !restsOnDoubted(rule, measurements)),
    stance,
    [...relabels.map(({ proposal }) => proposal), ...proposeMeasureAgain(measurements)],
    session,
    weigh,
  );
  const kept = planKept(body, outcomes, session, weighBy);
  return assembleReport(
    {
      ...stood,
      stance,
      load,
      outcomes,
      plan,
      kept,
      problems,
      measurements,
      compared,
      notCompared: sheet?.notCompared ?? [],
    },
    markerSet,
    session,
    source,
    norms,
  );
}

/** Where the stature is to be taken again, no marker answers for a proportion to it. */
function restsOnDoubted(rule: RuleDefinition, measurements: readonly SheetFinding[]): boolean {
  const isDoubted = measurements.some(
    ({ status, readings }) => status === 'repeat' && readings.some(({ measure }) => measure === 'stature'),
  );
  return isDoubted && ruleKinds[rule.kind].needs(rule).stature;
}

/** What is weighed once is not weighed again. */
function once(weigh: () => WeighedMarkers | null): () => WeighedMarkers | null {
  let held: WeighedMarkers | null | undefined;
  return () => {
    if (held === undefined) held = weigh();
    return held;
  };
}

function confirmedMarkers(session: Session): ReadonlySet<string> {
  return new Set(session.confirmed.map(({ marker }) => marker));
}
