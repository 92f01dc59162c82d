import { direction, dot, length, type Vec3 } from '../geometry/vector.ts';
import type { Move, MoveProposal, MoveVector, Problem, Report, RuleStatus } from '../report/report.ts';
import { markerShift } from './marker-shift.ts';
import type { StepOutcome, StepResult, ToldStep } from './step-result.ts';
import { sayStep } from './step-words.ts';

/**
 * What hand and eye repeat, and what standing again leaves of a marker nobody touched (common practice). Wider where a
 * bone was to be felt: the geometry knows its place less well, and a tilted pelvis carries the sacral marker up or down.
 */
const toleranceMm = { eye: 3, palpated: 10 } as const;

/** How far a marker moved on the body: forward, left, up, mm; null where that cannot be told better than by the report. */
export type FinerShift = (marker: string) => Vec3 | null;

/** What became of a step, told by where its marker is now and by the checks it was to settle. */
export function stepOutcome(before: Report, now: Report, move: Move, finer: FinerShift = () => null): StepOutcome {
  const checkNow = worstStatus(now, move.resolves);
  if (move.mm === undefined || move.marker === undefined) return toldByChecks(before, now, move, checkNow);
  const outcomeBy = (proposal: MoveProposal, shiftOf: FinerShift): StepOutcome =>
    outcomeFor(now, move, proposal, proposal.marker === undefined ? null : shiftOf(proposal.marker), checkNow);
  const byReport: FinerShift = (marker) => markerShift(before, now, marker, touchedMarkers(before, move, marker));
  const moved = ({ result }: StepOutcome): boolean => result === 'done' || result === 'part' || result === 'too-far';
  const asked = outcomeBy(move, byReport);
  const instead =
    asked.result === 'not-moved' ? move.alternatives.find((other) => moved(outcomeBy(other, byReport))) : undefined;
  // Which marker it was is told with every other candidate left out; how far it went, by all that then held still.
  return outcomeBy(instead ?? move, (marker) => finer(marker) ?? byReport(marker));
}

function outcomeFor(
  now: Report,
  move: Move,
  proposal: MoveProposal,
  shift: Vec3 | null,
  checkNow: RuleStatus | null,
): StepOutcome {
  const { mm } = proposal;
  const way = mm === undefined ? null : towardBody(mm, proposal.side);
  const along = way === null ? null : direction(way);
  const instead = proposal !== move;
  if (way === null || along === null || shift === null) {
    return said(now, move, proposal, { result: 'cannot-tell', checkNow, instead, ...noDistance });
  }
  const askedMm = length(way);
  const movedMm = dot(shift, along);
  const remainsMm = askedMm - movedMm;
  const tolerance = proposal.action === 'palpate-again' ? toleranceMm.palpated : toleranceMm.eye;
  const result = resultOf(askedMm, movedMm, Math.min(tolerance, askedMm / 2));
  return said(now, move, proposal, { result, askedMm, movedMm, remainsMm, checkNow, instead });
}

function resultOf(askedMm: number, movedMm: number, tolerance: number): StepResult {
  if (Math.abs(askedMm - movedMm) <= tolerance) return 'done';
  if (movedMm > askedMm) return 'too-far';
  if (movedMm < -tolerance) return 'other-way';
  return movedMm < tolerance ? 'not-moved' : 'part';
}

/** Standing again, labels and measurements: no distance tells, the checks or the problem do. */
function toldByChecks(before: Report, now: Report, move: Move, checkNow: RuleStatus | null): StepOutcome {
  const exchanged = before.problems.some((problem) => namesExchange(problem, move));
  const byChecks =
    checkNow === null || checkNow === 'not-assessed' ? 'cannot-tell' : checkNow === 'fail' ? 'open' : 'settled';
  const result =
    move.action === 'stand-again'
      ? standingSettled(before, now)
      : exchanged
        ? now.problems.some((problem) => namesExchange(problem, move))
          ? 'open'
          : 'settled'
        : byChecks;
  return said(now, move, move, { result, checkNow, instead: false, ...noDistance });
}

function namesExchange({ code, markers }: Problem, { action, marker }: Move): boolean {
  return action === 'relabel' && code === 'labels-swapped' && (marker === undefined || markers.includes(marker));
}

function standingSettled(before: Report, now: Report): StepResult {
  if (now.stance === null) return 'cannot-tell';
  const restless = (report: Report) => report.problems.some(({ code }) => code === 'not-still');
  const outside = (report: Report) => (restless(report) ? 1 : 0) + measuresOutside(report);
  if (outside(now) === 0) return 'settled';
  return outside(now) < outside(before) ? 'part' : 'open';
}

/** Measures of the stance that are out of their range without a recorded reason. */
function measuresOutside({ stance }: Report): number {
  return stance?.measures.filter(({ status }) => status === 'fail').length ?? 0;
}

const noDistance = { askedMm: null, movedMm: null, remainsMm: null } as const;

function said(
  now: Report,
  { step }: Move,
  proposal: MoveProposal,
  told: Omit<ToldStep, 'step' | 'action' | 'marker'>,
): StepOutcome {
  const outcome = { step, action: proposal.action, marker: proposal.marker ?? null, ...told };
  return sayStep(proposal, outcome, measuresOutside(now));
}

/** From outward, on the marker's own side, to the left of the body. */
function towardBody(mm: MoveVector, side: MoveProposal['side']): Vec3 {
  return [mm.forward, 'left' in mm ? mm.left : (side === 'right' ? -1 : 1) * mm.outward, mm.up];
}

/** Whatever a hand may have been on: the markers of all steps, and those that would explain this one as well. */
function touchedMarkers(before: Report, move: Move, marker: string): ReadonlySet<string> {
  const asked = [...before.moves, ...move.alternatives].flatMap(({ mm, marker }) => (mm && marker ? [marker] : []));
  return new Set(asked.filter((label) => label !== marker));
}

const fromBestToWorst: readonly RuleStatus[] = ['pass', 'accepted', 'borderline', 'not-assessed', 'fail'];

function worstStatus(now: Report, ids: readonly string[]): RuleStatus | null {
  const found = now.rules.filter(({ id }) => ids.includes(id)).map(({ status }) => status);
  if (found.length === 0) return null;
  return fromBestToWorst[Math.max(...found.map((status) => fromBestToWorst.indexOf(status)))]!;
}
