import { isDate } from '../session/is-date.ts';
import type { FindingScore, NamedMove } from './score-verdict.ts';
import { ways } from './skin-ways.ts';

/** A session was begun. */
export interface BegunSession {
  readonly kind: 'session';
  /** Tells sessions apart. */
  readonly session: string;
  readonly trainee: string;
  /** ISO day and time. */
  readonly at: string;
  readonly seed: number;
  readonly source: 'made' | 'stored';
  readonly markerSet: string;
  readonly trials: number;
}

/** A trial was answered. */
export interface AnsweredTrial {
  readonly kind: 'answer';
  readonly session: string;
  readonly trainee: string;
  readonly at: string;
  /** From 1. */
  readonly number: number;
  readonly trial: string;
  readonly basis: 'planted' | 'program';
  readonly written: readonly NamedMove[];
  /** With the landmark by its stem, which is the same on both sides. */
  readonly scored: readonly (FindingScore & { readonly landmark: string })[];
}

/** Somebody stands for it that an assessor finds and places a landmark. */
export interface SignOff {
  readonly kind: 'sign-off';
  readonly trainee: string;
  readonly signer: string;
  readonly landmark: string;
  readonly markerSet: string;
  /** Days, YYYY-MM-DD. */
  readonly on: string;
  readonly due: string;
  /** The newest answers about it: how often it was off, how often found, named with nothing there; how many were made. */
  readonly evidence: {
    readonly asked: number;
    readonly right: number;
    readonly invented: number;
    readonly made: number;
    readonly lastOn: string | null;
    /** How many times it was placed anew on one subject, the newest time; 0 for never. */
    readonly placings: number;
  };
  /** Why it was signed with less evidence than is asked for; empty where it was enough. */
  readonly reason: string;
}

/** A sign-off no longer stands. */
export interface Withdrawal {
  readonly kind: 'withdrawal';
  readonly trainee: string;
  readonly signer: string;
  readonly landmark: string;
  readonly on: string;
  readonly reason: string;
}

/** A subject was marked anew several times, skin marks removed in between. */
export interface RepeatedPlacing {
  readonly kind: 'repeat';
  readonly trainee: string;
  readonly at: string;
  readonly markerSet: string;
  readonly placings: number;
  /** Spread of one placing, 1 SD, right and left together, mm; null where the comparison shows too little of it. */
  readonly landmarks: readonly (RepeatSpread & { readonly landmark: string })[];
}

export interface RepeatSpread {
  readonly forwardMm: number | null;
  readonly upMm: number | null;
  readonly outwardMm: number | null;
}

export type HistoryLine = BegunSession | AnsweredTrial | SignOff | Withdrawal | RepeatedPlacing;

export interface History {
  readonly lines: readonly HistoryLine[];
  /** Lines that say nothing that is known here: torn by a stopped machine, or of another program. */
  readonly unread: number;
}

const format = 'setsquare-practice/1';

export const emptyHistory: History = { lines: [], unread: 0 };

/** One line without its line break. */
export function historyLine(line: HistoryLine): string {
  return JSON.stringify({ format, ...line });
}

/** Reads a history, however it was cut off. Lines that cannot be read are counted and change nothing. */
export function parseHistory(text: string): History {
  const lines: HistoryLine[] = [];
  let unread = 0;
  for (const written of text.split('\n')) {
    if (written.trim() === '') continue;
    const line = parseLine(written);
    if (line === null) unread += 1;
    else lines.push(line);
  }
  return { lines, unread };
}

function parseLine(written: string): HistoryLine | null {
  let data: unknown;
  try {
    data = JSON.parse(written);
  } catch {
    return null;
  }
  if (!isRecord(data) || data.format !== format) return null;
  const isKnown = isSession(data) || isAnswer(data) || isSignOff(data) || isWithdrawal(data) || isRepeat(data);
  return isKnown ? (data as unknown as HistoryLine) : null;
}

type Loose = Readonly<Record<string, unknown>>;

function isSession(data: Loose): boolean {
  return (
    data.kind === 'session' &&
    areTexts(data, ['session', 'trainee', 'at', 'markerSet']) &&
    (data.source === 'made' || data.source === 'stored') &&
    Number.isInteger(data.seed) &&
    Number.isInteger(data.trials)
  );
}

function isAnswer(data: Loose): boolean {
  return (
    data.kind === 'answer' &&
    areTexts(data, ['session', 'trainee', 'at', 'trial']) &&
    (data.basis === 'planted' || data.basis === 'program') &&
    Number.isInteger(data.number) &&
    Array.isArray(data.written) &&
    data.written.every((move) => isNamedMove(move)) &&
    Array.isArray(data.scored) &&
    data.scored.every((score) => isScore(score))
  );
}

/** Also for what a page sends: a marker, a way, a distance that a hand could be off. */
export function isNamedMove(data: unknown): data is NamedMove {
  return (
    isRecord(data) &&
    isText(data.marker) &&
    (ways as readonly unknown[]).includes(data.way) &&
    typeof data.mm === 'number' &&
    data.mm > 0 &&
    data.mm <= mostMm
  );
}

/** No marker is further off than this. */
export const mostMm = 300;

const outcomes: readonly unknown[] = ['found', 'tied', 'missed', 'invented', 'untold'];

function isScore(data: unknown): boolean {
  return (
    isRecord(data) &&
    areTexts(data, ['landmark', 'marker']) &&
    outcomes.includes(data.outcome) &&
    (data.named === null || isText(data.named)) &&
    (data.wayRight === null || typeof data.wayRight === 'boolean') &&
    (data.errorMm === null || Number.isFinite(data.errorMm))
  );
}

function isSignOff(data: Loose): boolean {
  const { evidence } = data;
  return (
    data.kind === 'sign-off' &&
    areTexts(data, ['trainee', 'signer', 'landmark', 'markerSet']) &&
    isText(data.on) &&
    isDate(data.on) &&
    isText(data.due) &&
    isDate(data.due) &&
    typeof data.reason === 'string' &&
    isRecord(evidence) &&
    Number.isInteger(evidence.asked) &&
    Number.isInteger(evidence.right) &&
    Number.isInteger(evidence.invented) &&
    Number.isInteger(evidence.made) &&
    Number.isInteger(evidence.placings) &&
    (evidence.lastOn === null || isText(evidence.lastOn))
  );
}

function isWithdrawal(data: Loose): boolean {
  return (
    data.kind === 'withdrawal' &&
    areTexts(data, ['trainee', 'signer', 'landmark', 'on', 'reason']) &&
    isDate(data.on as string)
  );
}

function isRepeat(data: Loose): boolean {
  return (
    data.kind === 'repeat' &&
    areTexts(data, ['trainee', 'at', 'markerSet']) &&
    Number.isInteger(data.placings) &&
    Array.isArray(data.landmarks) &&
    data.landmarks.every(
      (one) =>
        isRecord(one) &&
        isText(one.landmark) &&
        [one.forwardMm, one.upMm, one.outwardMm].every((mm) => mm === null || Number.isFinite(mm)),
    )
  );
}

function areTexts(data: Loose, names: readonly string[]): boolean {
  return names.every((name) => isText(data[name]));
}

function isText(value: unknown): value is string {
  return typeof value === 'string' && value !== '' && value.length <= 200;
}

function isRecord(value: unknown): value is Loose {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
