import type { MarkerSet } from '../marker-set/marker-set.ts';
import { answerTrial } from './answer-trial.ts';
import { type Feedback, feedbackOn } from './feedback-words.ts';
import type { AnsweredTrial, BegunSession, HistoryLine } from './history.ts';
import type { PracticeTrial } from './practice-trial.ts';
import type { WrittenVerdict } from './score-verdict.ts';
import { type SessionSummary, summariseSession } from './session-summary.ts';

export interface RunStart {
  readonly set: MarkerSet;
  readonly trials: readonly PracticeTrial[];
  readonly begun: BegunSession;
  /** What the trainee answered in earlier sessions. */
  readonly before: readonly AnsweredTrial[];
}

/**
 * A session under way: one trial after the other, each answered once and before anything is told of it. A line is
 * handed out as soon as there is something to keep, so that a session that breaks off keeps what was answered.
 */
export class PracticeRun {
  readonly set: MarkerSet;
  readonly trials: readonly PracticeTrial[];
  readonly #start: RunStart;
  readonly #keep: (line: HistoryLine) => void;
  readonly #answers: AnsweredTrial[] = [];

  constructor(start: RunStart, keep: (line: HistoryLine) => void) {
    this.set = start.set;
    this.trials = start.trials;
    this.#start = start;
    this.#keep = keep;
  }

  /** Trials that were answered so far. */
  get answered(): number {
    return this.#answers.length;
  }

  /** The trial that waits for a verdict; null in the end. */
  get current(): PracticeTrial | null {
    return this.trials[this.#answers.length] ?? null;
  }

  /**
   * Scores what was written down about the current trial, hands it out to be kept, and tells what is right.
   * @param at ISO day and time
   * @throws {RangeError} where no trial is left, or a marker is not of the set
   */
  answer(written: WrittenVerdict, at: string): { readonly answer: AnsweredTrial; readonly feedback: Feedback } {
    const trial = this.current;
    if (trial === null) throw new RangeError('Every trial of this session is answered.');
    const strange = written.find(({ marker }) => !Object.hasOwn(trial.report.markers, marker));
    if (strange !== undefined) throw new RangeError(`${strange.marker} is not on this figure.`);
    const { session, trainee } = this.#start.begun;
    const number = this.#answers.length + 1;
    const answer = answerTrial(trial, written, this.set, { session, trainee, at, number });
    // The session stands in the history with its first answer: one that was only looked at leaves nothing.
    if (number === 1) this.#keep(this.#start.begun);
    this.#keep(answer);
    this.#answers.push(answer);
    return { answer, feedback: feedbackOn(trial, answer, this.set) };
  }

  summary(): SessionSummary {
    return summariseSession(this.#answers, this.#start.before, this.set);
  }
}
