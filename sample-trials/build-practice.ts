import { readFileSync } from 'node:fs';
import type { Norms } from '../src/core/decision/norms.ts';
import { type LoadedMarkerSet, parseMarkerSet } from '../src/core/marker-set/parse-marker-set.ts';
import { bodyFromPositions } from '../src/core/pose/body-from-positions.ts';
import { makeSession } from '../src/core/practice/draw-session.ts';
import { type HistoryLine, historyLine } from '../src/core/practice/history.ts';
import { PracticeRun } from '../src/core/practice/practice-run.ts';
import type { PracticeTrial } from '../src/core/practice/practice-trial.ts';
import { recordStill } from '../src/core/practice/record-still.ts';
import { repeatedPlacement } from '../src/core/practice/repeat-placing.ts';
import { repeatLine } from '../src/core/practice/round-repeat.ts';
import type { NamedMove, WrittenVerdict } from '../src/core/practice/score-verdict.ts';
import { seededDraw } from '../src/core/practice/seeded-draw.ts';
import { signOffLines } from '../src/core/practice/sign-off-lines.ts';
import { alongWay, skinWays } from '../src/core/practice/skin-ways.ts';
import { emptySession } from '../src/core/session/session.ts';
import { sampleLabels } from './build-samples.ts';
import type { MarkerPositions } from './landmarks.ts';
import { describePerson } from './person-description.ts';
import { placeByHand } from './place-by-hand.ts';
import { seededRandom } from './seeded-random.ts';
import { standingPerson } from './standing-person.ts';

const shared = (path: string): string => readFileSync(new URL(`../shared/${path}`, import.meta.url), 'utf8');
const placingCount = 3;

/** One person whom the trainee marked anew three times. */
function placings(): MarkerPositions[] {
  const traits = { ageYears: 28, sex: 'female', statureMm: 1672 } as const;
  const person = standingPerson(describePerson(traits, seededRandom(71)));
  return Array.from({ length: placingCount }, (_, time) => placeByHand(person, seededRandom(710 + time)));
}

/** The trials of these placings, by name: a second and a half of quiet standing. */
export function buildPlacings(): Map<string, Uint8Array> {
  return new Map(
    placings().map((placed, time) => {
      const on = new Map(sampleLabels(true).map((label) => [label, placed.get(label)!]));
      return [`placing-${time + 1}.c3d`, recordStill(on, seededDraw(720 + time))];
    }),
  );
}

const trainee = 'AB';
const weeks = ['2026-09-07', '2026-09-14', '2026-09-21', '2026-09-28', '2026-10-05', '2026-10-12'];

/**
 * A trainee's first six weeks: each fault is looked for, the smaller ones are overlooked, distances come out a little short,
 * and early on some clean trials are not left alone. Then a placing day and three sign-offs.
 */
export function buildPracticeHistory(): string {
  const set = parseMarkerSet(shared('marker-sets/lower-limb-wands-22.json'), '0'.repeat(64));
  const norms: Norms = JSON.parse(shared('norms/lower-limb-wands-22.json'));
  const adult = new Map<string, [number, number, number]>(
    Object.entries(JSON.parse(shared('reference-adult.json')).positions),
  );
  const lines: HistoryLine[] = [];
  weeks.forEach((day, week) => {
    const seed = 41 + week;
    const trials = makeSession({ set, norms, adult }, seed, 8, (stem) => (practised.includes(stem) ? 1 : 0.05));
    const begun = {
      kind: 'session',
      session: `week-${week + 1}`,
      trainee,
      at: `${day}T16:00:00+00:00`,
      seed,
      source: 'made',
      markerSet: set.name,
      trials: trials.length,
    } as const;
    const run = new PracticeRun({ set, trials, begun, before: [] }, (line) => lines.push(line));
    trials.forEach((trial, at) => {
      run.answer(verdictOn(trial, set, week, at), `${day}T16:${String(2 * at + 2).padStart(2, '0')}:00+00:00`);
    });
  });
  const bodies = placings().map((placed) => bodyFromPositions(set, emptySession, (label) => placed.get(label))!);
  const repeated = repeatedPlacement(bodies);
  lines.push(repeatLine(repeated, { trainee, at: '2026-10-14T15:00:00+00:00', markerSet: set.name }));
  const sign = (landmarks: readonly string[], on: string, due: string, reason: string): void => {
    const signed = signOffLines({ trainee, signer: 'CD', landmarks, on, due, reason }, { lines, unread: 0 }, set);
    if (typeof signed === 'string') throw new RangeError(signed);
    lines.push(...signed);
  };
  sign(['HEEL'], '2026-10-15', '2027-10-15', '');
  sign(['SW'], '2026-10-15', '2026-11-15', 'seen on three patients; to be practised on');
  return lines.map((line) => `${historyLine(line)}\n`).join('');
}

const practised = ['HEEL', 'SW'];
/** Faults under this are overlooked, the longer the trainee practises the fewer; mm. */
const overlookedMm = [26, 22, 18, 14, 12, 12];

function verdictOn({ key }: PracticeTrial, set: LoadedMarkerSet, week: number, at: number): WrittenVerdict {
  const [finding] = key.expected;
  if (finding === undefined) return week < 2 && at % 3 === 0 ? [{ marker: 'L_SW', way: 'forward', mm: 15 }] : [];
  const [{ marker, side, shift }] = finding.accepted;
  const ways = skinWays(set.markers.find(({ label }) => label === marker)!);
  const goes = ways.map(({ way }) => ({ way, mm: alongWay(way, side, shift) })).sort((a, b) => b.mm - a.mm)[0]!;
  if (goes.mm < overlookedMm[week]!) return [];
  const move: NamedMove = { marker, way: goes.way, mm: Math.round(goes.mm * 0.8) };
  return [move];
}
