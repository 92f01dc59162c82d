import type { MarkerSet, SideOrMiddle } from '../marker-set/marker-set.ts';
import type { Report } from '../report/report.ts';
import type { AnswerKey } from './answer-key.ts';
import type { Feedback } from './feedback-words.ts';
import type { PracticeRun } from './practice-run.ts';
import type { FindingScore, WrittenVerdict } from './score-verdict.ts';
import type { SessionSummary } from './session-summary.ts';
import { type SkinWay, skinWays } from './skin-ways.ts';

/** What a trainee sees of a trial before the verdict: a figure, and nothing that tells what was found or whose it is. */
export interface ShownTrial {
  /** From 1. */
  readonly number: number;
  readonly of: number;
  readonly figure: Pick<Report, 'markers' | 'figure'>;
  /** Markers that are on, each with the ways in which it is put right. */
  readonly choices: readonly MarkerChoice[];
}

export interface MarkerChoice {
  readonly marker: string;
  /** Label without its side. */
  readonly landmark: string;
  readonly called: string;
  readonly side: SideOrMiddle;
  readonly ways: readonly SkinWay[];
}

/** What a trainee sees after it. */
export interface ToldTrial {
  readonly feedback: Feedback;
  readonly key: AnswerKey;
  readonly written: WrittenVerdict;
  readonly scored: readonly FindingScore[];
  /** Trials of this session that were answered so far, and those wholly right. */
  readonly answered: number;
  readonly right: number;
  /** Null after the last one. */
  readonly next: ShownTrial | null;
  /** Only after the last one. */
  readonly summary: SessionSummary | null;
}

/** The trial that waits for a verdict, blinded; null in the end. */
export function showTrial({ current, trials, answered, set }: PracticeRun): ShownTrial | null {
  if (current === null) return null;
  const { markers, figure } = current.report;
  return {
    number: answered + 1,
    of: trials.length,
    // How much a marker sways or hides is a trace of the recording, and nothing to judge by.
    figure: {
      markers: Object.fromEntries(
        Object.entries(markers).map(([label, { mm, called, side }]) => [
          label,
          { mm, called, side, sdMm: 0, visible: 1 },
        ]),
      ),
      figure,
    },
    choices: choicesOf(set, markers),
  };
}

function choicesOf(set: MarkerSet, markers: Report['markers']): MarkerChoice[] {
  return set.markers
    .filter(({ label }) => markers[label] !== undefined)
    .map((marker) => ({
      marker: marker.label,
      landmark: marker.stem,
      called: marker.called,
      side: marker.side,
      ways: skinWays(marker),
    }));
}

/** Takes the verdict on the current trial and tells what is right. @throws {RangeError} as PracticeRun.answer */
export function tellTrial(run: PracticeRun, written: WrittenVerdict, at: string): ToldTrial {
  const { key } = run.current ?? { key: null };
  const { answer, feedback } = run.answer(written, at);
  const { right } = run.summary();
  const next = showTrial(run);
  return {
    feedback,
    key: key!,
    written,
    scored: answer.scored,
    answered: run.answered,
    right,
    next,
    summary: next === null ? run.summary() : null,
  };
}
