import { counted } from '../report/counted.ts';
import { fixed } from '../report/rounding.ts';
import type { BasisScore } from './basis-score.ts';
import { newest } from './landmark-record.ts';
import { fewestAsked, leastShare, type SignOffState } from './sign-off-state.ts';
import type { LandmarkLine, LandmarkScore, TraineeRecord } from './trainee-record.ts';
import { wilsonInterval } from './wilson-interval.ts';

export const madeTitle = 'Made trials, against what was done to them';
export const storedTitle = 'Stored trials, against the program, which is not the truth';

export function spanWords({ sessions, days }: Pick<TraineeRecord, 'sessions' | 'days'>): string {
  if (days === null) return 'no trial answered yet';
  const [first, last] = days;
  return `${counted(sessions, 'session')}, ${first === last ? first : `${first} to ${last}`}`;
}

/** Rows of the whole score: what, "9 of 13", "42 to 87 %". */
export function scoreRows({ faults, clean }: BasisScore): (readonly [string, string, string])[] {
  return [
    ['Markers that were off, found with the way', ofCount(faults), shareWords(faults)],
    ['Trials with nothing to move, left alone', ofCount(clean), shareWords(clean)],
  ];
}

/** What somebody who does not look would get. */
export function chanceWords({ trials, whollyRight, clean, faults }: BasisScore, blindChoices: number): string {
  const drawn = faults.asked === 0 ? '' : `, and a marker and way drawn blindly is right about once in ${blindChoices}`;
  return `${whollyRight} of ${counted(trials, 'trial')} wholly right. By chance: naming nothing throughout makes ${clean.asked} of ${trials} right${drawn}.`;
}

function ofCount({ right, asked }: { readonly right: number; readonly asked: number }): string {
  return asked === 0 ? 'none yet' : `${right} of ${asked}`;
}

/** The 95 % interval, or that there are too few. */
function shareWords({ right, asked }: { readonly right: number; readonly asked: number }): string {
  return asked < fewestAsked ? 'too few to score' : intervalWords(wilsonInterval(right, asked));
}

function intervalWords([low, high]: readonly [number, number]): string {
  return `${Math.round(100 * low)} to ${Math.round(100 * high)} %`;
}

/** Cells of a landmark: found of how many, the share, named wrongly, mean and size of the distance error. */
export function landmarkCells(score: LandmarkScore): [string, string, string, string] {
  const { asked, right, invented, interval, meanErrorMm, meanAbsoluteErrorMm } = score;
  return [
    asked === 0 ? '' : `${right} of ${asked}`,
    interval === null ? (asked === 0 ? '' : 'too few') : intervalWords(interval),
    invented === 0 ? '' : String(invented),
    meanErrorMm === null || right < fewestAsked ? '' : `${signed(meanErrorMm)} (${fixed(0, meanAbsoluteErrorMm)})`,
  ];
}

function signed(mm: number): string {
  return `${mm > 0 ? '+' : ''}${fixed(0, mm)}`;
}

export function wasAnswered({ asked, invented }: LandmarkScore): boolean {
  return asked + invented > 0;
}

/** Whether repeated placings tell something of it. */
export function hasSpread({ repeat }: LandmarkLine): boolean {
  return repeat !== null && [repeat.forwardMm, repeat.upMm, repeat.outwardMm].some((mm) => mm !== null);
}

/** The newest days are the ones that count. */
const daysTold = 5;

/** "2026-11-20 2 of 3, 2026-11-25 3 of 3" */
export function historyWords(history: LandmarkLine['history']): string {
  const told = history.slice(-daysTold).map(({ on, asked, right }) => `${on} ${right} of ${asked}`);
  return `${history.length > daysTold ? 'before that more; ' : ''}${told.join(', ')}`;
}

export function dueWords({ state, daysLeft }: Pick<SignOffState, 'state' | 'daysLeft'>): string {
  if (state === 'withdrawn') return 'withdrawn';
  if (state === 'overdue') return `OVERDUE by ${counted(-daysLeft, 'day')}`;
  return daysLeft <= dueSoonDays ? `due in ${counted(daysLeft, 'day')}` : 'in force';
}

/** From so many days on it is said how many are left. */
const dueSoonDays = 30;

export function evidenceWords({ evidence, reason, state }: SignOffState): string {
  const { asked, right, invented, made, lastOn, placings } = evidence;
  const seen =
    asked === 0
      ? 'never off in an answered trial'
      : `${right} of ${asked} found (${made} in made trials${lastOn === null ? '' : `, last on ${lastOn}`})`;
  return [
    seen,
    ...(invented === 0 ? [] : [`named ${counted(invented, 'time')} with nothing there`]),
    placings === 0 ? 'no repeated placing' : `placed anew ${counted(placings, 'time')}`,
    ...(reason === '' ? [] : [`${state === 'withdrawn' ? 'withdrawn' : 'signed all the same'}: ${reason}`]),
  ].join('; ');
}

/** What the record does not say. */
export function recordLimits({ landmarks, again }: TraineeRecord): string[] {
  return [
    ...(again === 0
      ? []
      : [`${counted(again, 'answer')} to trials that were answered before did not count: they may be known by heart.`]),
    `Of each landmark the newest ${newest} answers count, right and left together. From fewer than ${fewestAsked} no share is told. Shares are 95 % intervals: what the count may stand for.`,
    'Found on a figure is not found on a patient: a sign-off rests on what a licensed colleague saw at the bedside as well.',
    `Who signs, on what evidence and for how long is for the laboratory to decide. Here a sign-off on fewer than ${fewestAsked} answers, or with less than ${Math.round(100 * leastShare)} % right, needs a written reason (common practice). A code is no signature: whoever can write the file can write a line.`,
    ...(landmarks.some(({ repeat }) => repeat !== null)
      ? [
          'The spread of repeated placings reads low, is of one subject and says little about another; a dash stands where it would hardly show.',
        ]
      : []),
  ];
}
