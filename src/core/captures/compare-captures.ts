import type { Report, ReportedRule } from '../report/report.ts';
import { isSameBody } from './same-body.ts';
import { isSameRecording } from './same-recording.ts';
import { type FinerShift, stepOutcome } from './step-outcome.ts';
import type { StepOutcome } from './step-result.ts';

/** A rule as far as a comparison names it. */
export type NamedRule = Pick<ReportedRule, 'id' | 'title' | 'side'>;

/**
 * One capture against the one before. `captured-again`: the same person stood again. `processed-again`: the same
 * recording, with other labels perhaps. `other-body`: another person, nothing is compared. `cannot-compare`: too little
 * of one or the other can be seen.
 */
export interface CaptureComparison {
  readonly kind: 'captured-again' | 'processed-again' | 'other-body' | 'cannot-compare';
  /** What became of each step that the capture before had asked for, in its order. */
  readonly steps: readonly StepOutcome[];
  /** Rules that failed before and do not now; that failed in both; that fail only now. */
  readonly settled: readonly NamedRule[];
  readonly stillFailing: readonly NamedRule[];
  readonly newlyFailing: readonly NamedRule[];
  /** Required markers that were missing and are there, and the other way round. */
  readonly seenNow: readonly string[];
  readonly missingNow: readonly string[];
}

/**
 * What changed from one capture to the next, above all what became of the steps that were asked for. Positions are in
 * the body axes of each capture, mm; nothing is thrown for any report.
 * @param finer where the bodies themselves are at hand: how far a marker moved, told by them
 */
export function compareCaptures(before: Report, now: Report, finer: FinerShift = () => null): CaptureComparison {
  const kind = kindOf(before, now);
  if (kind === 'other-body' || kind === 'cannot-compare') return { kind, ...nothing };
  const failed = withStatusFail(before);
  const fails = withStatusFail(now);
  const missed = missingMarkers(before);
  const misses = missingMarkers(now);
  return {
    kind,
    steps: before.moves.map((move) => stepOutcome(before, now, move, finer)),
    settled: failed.filter(({ id }) => now.rules.some((rule) => rule.id === id && isSettled(rule))).map(named),
    stillFailing: fails.filter(({ id }) => failed.some((rule) => rule.id === id)).map(named),
    newlyFailing: fails.filter(({ id }) => !failed.some((rule) => rule.id === id)).map(named),
    seenNow: missed.filter((marker) => Object.hasOwn(now.markers, marker)),
    missingNow: misses.filter((marker) => !missed.includes(marker)),
  };
}

const nothing = { steps: [], settled: [], stillFailing: [], newlyFailing: [], seenNow: [], missingNow: [] };

function kindOf(before: Report, now: Report): CaptureComparison['kind'] {
  const same = isSameBody(before, now);
  if (same === null) return 'cannot-compare';
  if (!same) return 'other-body';
  return isSameRecording(before, now) ? 'processed-again' : 'captured-again';
}

function withStatusFail({ rules }: Report): ReportedRule[] {
  return rules.filter(({ status }) => status === 'fail');
}

function isSettled({ status }: ReportedRule): boolean {
  return status !== 'fail' && status !== 'not-assessed';
}

function named({ id, title, side }: ReportedRule): NamedRule {
  return { id, title, side };
}

function missingMarkers({ problems }: Report): string[] {
  return problems.filter(({ code }) => code === 'marker-missing').flatMap(({ markers }) => [...markers]);
}
