import type { WeighedMarkers } from '../decision/weigh-markers.ts';
import { dataChanges } from '../gait-model/data-changes.ts';
import type { MarkerDefinition } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import type { Session } from '../session/session.ts';
import { explainsAsWell, rankSuspects, type Suspect } from './choose-marker.ts';
import { failingOn } from './failing-rules.ts';
import type { Tie } from './move.ts';
import { tieOf } from './settle-tie.ts';

/** One marker to see to, with the body before and after. */
export interface Correction {
  readonly marker: MarkerDefinition;
  readonly before: StandingBody;
  readonly after: StandingBody;
  /** Rules that failed before it and no longer do when every step is done; those that name the marker first. */
  readonly resolves: readonly AssessedRule[];
  /** How many rules fail because of it when every step is done. */
  readonly breaks: number;
  readonly rivals: readonly Suspect[];
  /** The marker of the other side explains the findings as well. */
  readonly either: boolean;
  /** That the marker is off this way; null without norms. */
  readonly probability: number | null;
  readonly tie: Tie | null;
  /** 1 SD of the distance, where the weighing tells; mm. */
  readonly knownToMm: number | null;
}

export interface CorrectionPlan {
  readonly corrections: readonly Correction[];
  readonly stillFailing: readonly AssessedRule[];
}

/** What a plan is made for. */
interface Findings {
  readonly body: StandingBody;
  /** Rules that a marker has to answer for, by id. */
  readonly given: ReadonlySet<string>;
  readonly assessed: readonly AssessedRule[];
  readonly mayMove: (marker: MarkerDefinition) => boolean;
  readonly weighed: WeighedMarkers | null;
  readonly session: Session;
}

const phases = ['palpation', 'eye'] as const;

/**
 * Corrections in the order in which a person does them: palpated landmarks first, since markers set by eye are placed
 * on them, then those; within each by what they cost the data, dearest first; each solved in the pose that the ones
 * before it leave behind. First it is decided which markers are doubted, then they are corrected in that order; one that
 * turns out to break as much as it mends is left alone.
 * @param failing rules that a marker has to answer for; those that the stance explains are left out by the caller
 */
export function planCorrections(
  body: StandingBody,
  failing: readonly AssessedRule[],
  assessed: readonly AssessedRule[],
  session: Session,
  weighed: WeighedMarkers | null,
): CorrectionPlan {
  const leftAlone = new Set(session.confirmed.map((item) => item.marker));
  const findings: Findings = {
    body,
    given: new Set(failing.map(({ rule }) => rule.id)),
    assessed,
    mayMove: (marker) => marker.purpose !== 'tracks' && !leftAlone.has(marker.label),
    weighed,
    session,
  };
  for (;;) {
    const doubted = doubtedMarkers(findings);
    const plan = correctInOrder(findings, doubted);
    const useless = doubted.find((marker) => {
      const correction = plan.corrections.find((one) => one.marker === marker);
      return correction === undefined || correction.resolves.length <= correction.breaks;
    });
    if (useless === undefined) return { ...plan, corrections: inOrder(plan.corrections.map(palpateBeforeMoving)) };
    leftAlone.add(useless.label);
  }
}

/** Which markers to see to: each time the best one for what still fails, as if it were put right at once. */
function doubtedMarkers(findings: Findings): MarkerDefinition[] {
  const doubted: MarkerDefinition[] = [];
  const costDeg = new Map<MarkerDefinition, number>();
  let current = findings.body;
  for (const phase of phases) {
    for (;;) {
      const failing = answerable(findings, current);
      const open = ledBy(findings.body, failing, phase);
      const free = (marker: MarkerDefinition): boolean => findings.mayMove(marker) && !doubted.includes(marker);
      const best = rankSuspects(
        current,
        open,
        phase === 'eye' ? failing : open,
        weighedIn(findings, phase),
        free,
        findings.weighed,
      )[0];
      if (best === undefined) break;
      doubted.push(best.marker);
      costDeg.set(best.marker, dataChanges(current, best.corrected, findings.session)?.largestDeg ?? 0);
      current = best.corrected;
    }
  }
  const dearest = doubted.toSorted((a, b) => costDeg.get(b)! - costDeg.get(a)!);
  return phases.flatMap((phase) => dearest.filter((marker) => marker.placedBy === phase));
}

function correctInOrder(findings: Findings, doubted: readonly MarkerDefinition[]): CorrectionPlan {
  const steps: { chosen: Suspect; rivals: Suspect[]; before: StandingBody; failing: AssessedRule[] }[] = [];
  let before = findings.body;
  doubted.forEach((marker, index) => {
    const failing = answerable(findings, before);
    const naming = failing.filter(({ rule }) => rule.mayMove.includes(marker.label));
    const landmarks = ledBy(findings.body, failing, 'palpation');
    // A landmark answers to its own rules first, and to those of the markers placed on it where it has none.
    const asLandmark = marker.placedBy === 'palpation' && naming.some((outcome) => landmarks.includes(outcome));
    const open = asLandmark ? naming.filter((outcome) => landmarks.includes(outcome)) : naming;
    const done = doubted.slice(0, index);
    const free = (candidate: MarkerDefinition): boolean => findings.mayMove(candidate) && !done.includes(candidate);
    const phase = asLandmark ? 'palpation' : 'eye';
    const suspects = rankSuspects(
      before,
      open,
      asLandmark ? landmarks : failing,
      weighedIn(findings, phase),
      free,
      findings.weighed,
    );
    const chosen = suspects.find((suspect) => suspect.marker === marker);
    if (chosen === undefined) return;
    steps.push({ chosen, rivals: suspects.filter((suspect) => suspect !== chosen), before, failing });
    before = chosen.corrected;
  });
  const stillFailing = failingOn(before, findings.assessed);
  const unresolved = new Set(stillFailing.map(({ rule }) => rule.id));
  const corrections = steps.map(({ chosen, rivals, before, failing }): Correction => {
    const { marker, corrected } = chosen;
    const left = new Set([...unresolved, ...failingOn(corrected, failing).map(({ rule }) => rule.id)]);
    const resolved = failing.filter(({ rule }) => !left.has(rule.id));
    const [own, others] = [true, false].map((names) =>
      resolved.filter(({ rule }) => rule.mayMove.includes(marker.label) === names),
    ) as [AssessedRule[], AssessedRule[]];
    const broken = new Set(failingOn(corrected, stillFailing).map(({ rule }) => rule.id));
    for (const { rule } of failingOn(before, stillFailing)) broken.delete(rule.id);
    const resolves = own.length > 0 ? [...own, ...others] : [];
    const either = rivals.some((rival) => rival.marker.label === marker.mirror && explainsAsWell(rival, chosen));
    return {
      marker,
      before,
      after: corrected,
      resolves,
      breaks: broken.size,
      rivals,
      either,
      probability: chosen.probability,
      tie: tieOf(chosen, rivals),
      knownToMm: chosen.knownToMm,
    };
  });
  return { corrections, stillFailing };
}

/** Landmarks first; one that two markers tie with is palpated once, for the findings of both. */
function inOrder(corrections: readonly Correction[]): Correction[] {
  const once: Correction[] = [];
  for (const correction of corrections) {
    const same = once.findIndex(({ marker }) => marker === correction.marker);
    if (same < 0) once.push(correction);
    else {
      const resolves = [...new Set([...once[same]!.resolves, ...correction.resolves])];
      once[same] = { ...once[same]!, resolves, rivals: [...once[same]!.rivals, ...correction.rivals] };
    }
  }
  return phases.flatMap((phase) => once.filter(({ marker }) => marker.placedBy === phase));
}

/** Where a landmark ties with a marker set by eye, the bone is asked first, and nothing is moved before it answered. */
function palpateBeforeMoving(correction: Correction): Correction {
  const { tie, rivals, marker, resolves } = correction;
  const first = rivals.find((rival) => rival.marker.label === tie?.settledBy);
  if (tie === null || first === undefined || marker.placedBy === 'palpation') return correction;
  const chosen: Suspect = {
    marker,
    corrected: correction.after,
    failing: [],
    remains: 0,
    probability: correction.probability,
    knownToMm: correction.knownToMm,
  };
  const own = resolves.filter(({ rule }) => rule.mayMove.includes(first.marker.label));
  return {
    ...correction,
    marker: first.marker,
    after: first.corrected,
    resolves: own.length > 0 ? own : resolves,
    rivals: [chosen, ...rivals.filter((rival) => rival !== first)],
    probability: first.probability,
    knownToMm: first.knownToMm,
    tie: tieOf(first, [chosen]),
  };
}

function answerable({ given, assessed }: Findings, body: StandingBody): AssessedRule[] {
  return failingOn(body, assessed).filter(({ rule }) => given.has(rule.id));
}

/** Markers set by eye follow the landmarks: what a landmark does to their rules is put right after it. */
function weighedIn({ body, assessed }: Findings, phase: MarkerDefinition['placedBy']): AssessedRule[] {
  return phase === 'eye' ? [...assessed] : ledBy(body, assessed, 'palpation');
}

function ledBy(
  body: StandingBody,
  rules: readonly AssessedRule[],
  phase: MarkerDefinition['placedBy'],
): AssessedRule[] {
  return rules.filter(({ rule }) => leader(body, rule.mayMove) === phase);
}

function leader(body: StandingBody, mayMove: readonly string[]): MarkerDefinition['placedBy'] {
  return body.set.markers.find((marker) => marker.label === mayMove[0])!.placedBy;
}
