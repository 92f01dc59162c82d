import type { MarkerSet } from '../marker-set/marker-set.ts';
import { counted } from '../report/counted.ts';
import type { AnsweredTrial } from './history.ts';
import { type LandmarkRecord, landmarkRecords, weakestLandmarks } from './landmark-record.ts';

export interface SessionSummary {
  readonly trials: number;
  /** Trials in which everything was right: what is off and the way, or that nothing is. */
  readonly right: number;
  readonly says: readonly string[];
}

/** Landmarks that are named for the next session. */
const named = 3;

/** What a session showed, and what to practise next by all answers of the trainee so far. */
export function summariseSession(
  answers: readonly AnsweredTrial[],
  before: readonly AnsweredTrial[],
  set: MarkerSet,
): SessionSummary {
  const right = answers.filter(isAllRight).length;
  const clean = answers.filter(({ scored }) =>
    scored.every(({ outcome }) => outcome === 'invented' || outcome === 'untold'),
  );
  const kept = clean.filter(isAllRight).length;
  const invented = answers.flatMap(({ scored }) => scored.filter(({ outcome }) => outcome === 'invented')).length;
  const records = landmarkRecords([...before, ...answers]);
  const next = weakestLandmarks(records, named);
  return {
    trials: answers.length,
    right,
    says: [
      `${right} of ${counted(answers.length, 'trial')} wholly right; naming nothing throughout would have made it ${clean.length}.`,
      ...(clean.length === 0 ? [] : [`Of ${clean.length} with nothing to move you left ${kept} alone.`]),
      ...(invented > clean.length / 2 && invented > 1
        ? ['You named markers where nothing is to be moved: leave a marker alone unless a line or a level shows it.']
        : []),
      ...distanceWords(records),
      next.length === 0
        ? 'No landmark stands out as weak: go on with mixed sessions.'
        : `Practise next: ${next.map((record) => `${landmarkWords(set, record.landmark)} (${shareWords(record)})`).join('; ')}. They come more often from now on.`,
    ],
  };
}

export function isAllRight({ scored }: AnsweredTrial): boolean {
  return scored.every(
    ({ outcome, wayRight }) =>
      outcome === 'untold' || ((outcome === 'found' || outcome === 'tied') && wayRight === true),
  );
}

/** What a landmark is called, without its side. */
export function landmarkWords(set: MarkerSet, stem: string): string {
  return set.markers.find((marker) => marker.stem === stem)?.called ?? stem;
}

function shareWords({ asked, right, invented }: LandmarkRecord): string {
  const named = invented === 0 ? '' : `named ${counted(invented, 'time')} with nothing there`;
  return asked === 0 ? named : [`${right} of ${asked} right`, named].filter((text) => text !== '').join(', ');
}

/** A habit in distances is told from this mean error on. */
const habitMm = 4;
const fewestDistances = 4;

function distanceWords(records: readonly LandmarkRecord[]): string[] {
  const told = records.filter(({ meanErrorMm }) => meanErrorMm !== null);
  const count = told.reduce((sum, { right }) => sum + right, 0);
  if (count < fewestDistances) return [];
  const mean = told.reduce((sum, { right, meanErrorMm }) => sum + right * meanErrorMm!, 0) / count;
  if (Math.abs(mean) < habitMm) return [];
  return [`Your distances are ${Math.round(Math.abs(mean))} mm too ${mean > 0 ? 'long' : 'short'} on the whole.`];
}
