import type { MarkerSet } from '../marker-set/marker-set.ts';
import { type BasisScore, basisScore, blindChoices } from './basis-score.ts';
import type { AnsweredTrial, History, RepeatedPlacing } from './history.ts';
import { answersOf, firstAnswers, type LandmarkRecord, landmarkRecords } from './landmark-record.ts';
import { landmarkWords } from './session-summary.ts';
import { fewestAsked, type SignOffState, signOffStates } from './sign-off-state.ts';
import { wilsonInterval } from './wilson-interval.ts';

/** Everything that a history holds of one trainee, as it stands on a day. */
export interface TraineeRecord {
  readonly trainee: string;
  /** YYYY-MM-DD */
  readonly asOf: string;
  readonly markerSet: string;
  readonly sessions: number;
  /** Answers to trials that were answered before, which do not count. */
  readonly again: number;
  /** Days of the first and the newest answer. */
  readonly days: readonly [string, string] | null;
  /** Trials made by the program, against what was done to them. */
  readonly made: BasisScore;
  /** Stored trials, against the program, which is not the truth. */
  readonly stored: BasisScore;
  /** Of markers and ways drawn blindly one in so many is right. */
  readonly blindChoices: number;
  /** In the order of the marker set, then what only the history knows. */
  readonly landmarks: readonly LandmarkLine[];
}

export interface LandmarkLine {
  readonly landmark: string;
  readonly called: string;
  readonly made: LandmarkScore;
  readonly stored: LandmarkScore;
  /** Answers by day: how often it was off, how often found with the way right; all of them, the oldest first. */
  readonly history: readonly { readonly on: string; readonly asked: number; readonly right: number }[];
  /** The newest time that it was placed anew. */
  readonly repeat: ({ readonly on: string; readonly placings: number } & RepeatedPlacing['landmarks'][number]) | null;
  readonly signOff: SignOffState | null;
}

/** The newest answers about a landmark; the share and its 95 % interval only from enough of them. */
export interface LandmarkScore extends Omit<LandmarkRecord, 'landmark' | 'lastAt' | 'made'> {
  readonly interval: readonly [number, number] | null;
}

/**
 * Score, history and sign-off of each landmark.
 * @param asOf YYYY-MM-DD; what was written on later days does not count
 */
export function traineeRecord(history: History, trainee: string, set: MarkerSet, asOf: string): TraineeRecord {
  const all = answersOf(history, trainee).filter(({ at }) => dayOf(at) <= asOf);
  const answers = firstAnswers(all);
  const [planted, judged] = (['planted', 'program'] as const).map((basis) =>
    answers.filter((answer) => answer.basis === basis),
  ) as [AnsweredTrial[], AnsweredTrial[]];
  const [made, stored] = [planted, judged].map(
    (some) => new Map(landmarkRecords(some).map((record) => [record.landmark, record])),
  ) as [Map<string, LandmarkRecord>, Map<string, LandmarkRecord>];
  const repeats = history.lines.filter(
    (line) => line.kind === 'repeat' && line.trainee === trainee,
  ) as RepeatedPlacing[];
  const signed = signOffStates(history, asOf).filter((state) => state.trainee === trainee);
  const known = [
    ...new Set([
      ...set.markers.filter(({ purpose }) => purpose !== 'tracks').map(({ stem }) => stem),
      ...[...made.keys(), ...stored.keys(), ...signed.map(({ landmark }) => landmark)].sort(),
    ]),
  ];
  const days = all.map(({ at }) => dayOf(at));
  return {
    trainee,
    asOf,
    markerSet: set.name,
    sessions: new Set(all.map(({ session }) => session)).size,
    again: all.length - answers.length,
    days: days.length === 0 ? null : [days[0]!, days.at(-1)!],
    made: basisScore(planted),
    stored: basisScore(judged),
    blindChoices: blindChoices(set),
    landmarks: known.map((landmark) => ({
      landmark,
      called: landmarkWords(set, landmark),
      made: scoreOf(made.get(landmark)),
      stored: scoreOf(stored.get(landmark)),
      history: historyOf(answers, landmark),
      repeat: newestRepeat(repeats, landmark, asOf),
      signOff: signed.find((state) => state.landmark === landmark) ?? null,
    })),
  };
}

/** Day of an ISO day and time. */
export function dayOf(at: string): string {
  return at.slice(0, 10);
}

function scoreOf(record: LandmarkRecord | undefined): LandmarkScore {
  const { landmark: _, lastAt: __, made: ___, ...counts } = record ?? neverAsked;
  const { asked, right } = counts;
  return { ...counts, interval: asked < fewestAsked ? null : wilsonInterval(right, asked) };
}

const neverAsked: LandmarkRecord = {
  landmark: '',
  asked: 0,
  made: 0,
  found: 0,
  tied: 0,
  missed: 0,
  invented: 0,
  right: 0,
  meanErrorMm: null,
  meanAbsoluteErrorMm: null,
  lastAt: null,
};

function historyOf(answers: readonly AnsweredTrial[], landmark: string): LandmarkLine['history'] {
  const byDay = new Map<string, { asked: number; right: number }>();
  for (const { at, scored } of answers) {
    for (const one of scored) {
      if (one.landmark !== landmark || one.outcome === 'untold' || one.outcome === 'invented') continue;
      const day = byDay.get(dayOf(at)) ?? { asked: 0, right: 0 };
      byDay.set(dayOf(at), { asked: day.asked + 1, right: day.right + (one.wayRight === true ? 1 : 0) });
    }
  }
  return [...byDay].map(([on, counts]) => ({ on, ...counts }));
}

function newestRepeat(repeats: readonly RepeatedPlacing[], landmark: string, asOf: string): LandmarkLine['repeat'] {
  return (
    repeats
      .flatMap(({ at, placings, landmarks }) =>
        landmarks.filter((one) => one.landmark === landmark).map((one) => ({ ...one, on: dayOf(at), placings })),
      )
      .filter(({ on }) => on <= asOf)
      .at(-1) ?? null
  );
}
