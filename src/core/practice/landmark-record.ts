import type { AnsweredTrial, History } from './history.ts';
import type { Outcome } from './score-verdict.ts';

/** What a trainee did at one landmark, on either side. */
export interface LandmarkRecord {
  readonly landmark: string;
  /** Times it was off. */
  readonly asked: number;
  /** Of those times in a made trial, where the truth is known. */
  readonly made: number;
  readonly found: number;
  readonly tied: number;
  readonly missed: number;
  /** Times it was named with nothing to move there. */
  readonly invented: number;
  /** Found or tied with the way right. */
  readonly right: number;
  /** Of those: mean of what the written distance is over (or, negative, under) the true one, and mean size of that; mm. */
  readonly meanErrorMm: number | null;
  readonly meanAbsoluteErrorMm: number | null;
  /** ISO day and time of the last time it was asked; null for never. */
  readonly lastAt: string | null;
}

/** Answers longer ago say little about today. */
export const newest = 20;

/** Answers of one trainee, the oldest first. */
export function answersOf(history: History, trainee: string): AnsweredTrial[] {
  return history.lines.filter((line) => line.kind === 'answer').filter((line) => line.trainee === trainee);
}

interface Entry {
  readonly outcome: Outcome;
  readonly right: boolean;
  readonly errorMm: number | null;
  readonly at: string;
  readonly isMade: boolean;
}

/** Of each trial the first answer: a trial that comes again, by its seed or from the archive, may be known by heart. */
export function firstAnswers(answers: readonly AnsweredTrial[]): AnsweredTrial[] {
  const seen = new Set<string>();
  return answers.filter(({ trial }) => !seen.has(trial) && seen.add(trial));
}

/** Landmarks that a trainee was asked or named, in the order of their names; of each the newest answers. */
export function landmarkRecords(answers: readonly AnsweredTrial[]): LandmarkRecord[] {
  const byLandmark = new Map<string, Entry[]>();
  for (const { at, basis, scored } of answers) {
    for (const { landmark, outcome, wayRight, errorMm } of scored) {
      if (outcome === 'untold') continue;
      const entries = byLandmark.get(landmark) ?? [];
      entries.push({ outcome, right: wayRight === true, errorMm, at, isMade: basis === 'planted' });
      byLandmark.set(landmark, entries);
    }
  }
  return [...byLandmark]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([landmark, all]) => {
      const entries = all.slice(-newest);
      const count = (outcome: Outcome): number => entries.filter((one) => one.outcome === outcome).length;
      const asked = entries.filter(({ outcome }) => outcome !== 'invented');
      const errors = entries.flatMap(({ errorMm }) => (errorMm === null ? [] : [errorMm]));
      return {
        landmark,
        asked: asked.length,
        made: asked.filter(({ isMade }) => isMade).length,
        found: count('found'),
        tied: count('tied'),
        missed: count('missed'),
        invented: count('invented'),
        right: entries.filter(({ right }) => right).length,
        meanErrorMm: meanOf(errors),
        meanAbsoluteErrorMm: meanOf(errors.map(Math.abs)),
        lastAt: asked.at(-1)?.at ?? null,
      };
    });
}

function meanOf(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}

/**
 * How weak a landmark is, 0 to 1: the share of wrong answers as it may be expected from few (Laplace's rule of succession),
 * naming it where nothing is off counted as half a wrong one. One that was never asked is half weak.
 */
export function weakness({ asked, right, invented }: Pick<LandmarkRecord, 'asked' | 'right' | 'invented'>): number {
  return (asked - right + invented / 2 + 1) / (asked + invented / 2 + 2);
}

/** Even a landmark that is always found comes back now and then. */
const leastWeight = 0.15;

/** How often a landmark is to be practised, by what was answered before: the weaker the more often. */
export function practiceWeights(records: readonly LandmarkRecord[]): (landmark: string) => number {
  const known = new Map(records.map((record) => [record.landmark, leastWeight + weakness(record)]));
  return (landmark) => known.get(landmark) ?? leastWeight + weakness({ asked: 0, right: 0, invented: 0 });
}

/** The landmarks to practise next, the weakest first, each weaker than one that was never asked. */
export function weakestLandmarks(records: readonly LandmarkRecord[], most: number): LandmarkRecord[] {
  return records
    .filter((record) => weakness(record) >= 0.5)
    .sort((a, b) => weakness(b) - weakness(a) || (a.landmark < b.landmark ? -1 : 1))
    .slice(0, most);
}
