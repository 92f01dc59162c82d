import { writeC3d } from '../src/core/c3d/write-c3d.ts';
import { sampleLabels } from './build-samples.ts';
import type { MarkerPositions } from './landmarks.ts';
import { measureSide } from './measure-placement.ts';
import { describePerson } from './person-description.ts';
import { placeByHand } from './place-by-hand.ts';
import { displace, turnWand } from './plant-fault.ts';
import { recordTrial } from './record-trial.ts';
import { type SeededRandom, seededRandom } from './seeded-random.ts';
import { type StandingPerson, standingPerson } from './standing-person.ts';

/** A year of invented trials by invented assessors; what each of them does on purpose is written here and nowhere else. */
export interface DemoArchiveOptions {
  /** Visits in the year, spread evenly over months and assessors. */
  readonly visits: number;
  readonly seed: number;
}

export interface DemoFile {
  /** Below the archive's folder, with forward slashes. */
  readonly path: string;
  readonly content: Uint8Array | string;
}

interface DemoAssessor {
  readonly code: string;
  readonly site: string;
  /** Wands turned forward by so much, degrees, both sides. @param month 0 to 11 */
  readonly thighForwardDeg: (month: number) => number;
  readonly shankForwardDeg: (month: number) => number;
}

const never = () => 0;

/** AK works as the protocol says. BN's shank wands creep backward from May on. CS sets both thigh wands forward all year. */
export const demoAssessors: readonly DemoAssessor[] = [
  { code: 'AK', site: 'MR', thighForwardDeg: never, shankForwardDeg: never },
  { code: 'BN', site: 'MR', thighForwardDeg: never, shankForwardDeg: (month) => -1.2 * Math.max(0, month - 3) },
  { code: 'CS', site: 'WB', thighForwardDeg: () => 7, shankForwardDeg: never },
];

/** Where the archive says who, when and where, for a trial without a session file. */
export const demoPathPattern = '{site}/*/{date}_{assessor}_{subject}_*.c3d';

const monthsInYear = 12;
const year = 2025;
const oneTrialInTwentyHasAFault = 0.05;
const oneVisitInTenIsCapturedTwice = 0.1;
const oneInTenHasNoSession = 0.1;
const oneInFourHasNoMedialMarkers = 0.25;
const oneInThreeIsAChild = 0.33;

/** Every file of the archive: trials, the session files beside most of them, a copy, and two files that are no trials. */
export function* buildDemoArchive({ visits, seed }: DemoArchiveOptions): Iterable<DemoFile> {
  let copied: DemoFile | null = null;
  for (let visit = 0; visit < visits; visit += 1) {
    const assessor = demoAssessors[visit % demoAssessors.length]!;
    const round = Math.floor(visit / demoAssessors.length);
    const rounds = Math.ceil(visits / demoAssessors.length);
    const month = Math.floor((round * monthsInYear) / rounds);
    const day = 1 + ((round * 7 + visit) % 28);
    for (const file of buildVisit(assessor, month, day, visit, seededRandom(seed * 100_003 + visit))) {
      if (file.path.endsWith('.c3d')) copied ??= file;
      yield file;
    }
  }
  if (copied !== null) yield { ...copied, path: `MR/copies/${copied.path.slice(copied.path.lastIndexOf('/') + 1)}` };
  yield { path: 'MR/broken/empty.c3d', content: new Uint8Array(0) };
  yield { path: 'WB/broken/not-a-trial.c3d', content: 'This was meant to be a list of rooms.\n'.repeat(40) };
}

function* buildVisit(
  assessor: DemoAssessor,
  month: number,
  day: number,
  visit: number,
  random: SeededRandom,
): Iterable<DemoFile> {
  const isChild = random.between(0, 1) < oneInThreeIsAChild;
  const statureMm = Math.round(isChild ? random.between(1180, 1480) : random.between(1560, 1880));
  const sex = random.between(0, 1) < 0.5 ? 'female' : 'male';
  const ageYears = Math.round(isChild ? random.between(6, 12) : random.between(18, 70));
  const person = standingPerson(describePerson({ statureMm, sex, ageYears }, random));
  const medialMarkersOn = random.between(0, 1) >= oneInFourHasNoMedialMarkers;
  // Without medial markers only the session tells where the knees point.
  const hasSession = !medialMarkersOn || random.between(0, 1) >= oneInTenHasNoSession;
  const captures = random.between(0, 1) < oneVisitInTenIsCapturedTwice ? 2 : 1;
  const asProtocol = placeByHand(person, random);
  const placed = withHabits(asProtocol, assessor, month, random);
  const on = `${year}-${String(month + 1).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
  const subject = `P${String(visit + 1).padStart(5, '0')}`;
  for (let capture = 1; capture <= captures; capture += 1) {
    const stem = `${assessor.site}/${on.slice(0, 7)}/${on}_${assessor.code}_${subject}_${capture}`;
    yield { path: `${stem}.c3d`, content: film(person, placed, medialMarkersOn, random) };
    if (!hasSession) continue;
    const right = measureSide(asProtocol, 'right', person.description.markerRadiusMm);
    const left = measureSide(asProtocol, 'left', person.description.markerRadiusMm);
    const session = {
      format: 'setsquare-session/1',
      subject: { code: subject, ageYears, sex },
      visit: { assessor: assessor.code, site: assessor.site, on },
      facts: {
        kneeTurnDeg: { right: Math.round(right.kneeTurnDeg), left: Math.round(left.kneeTurnDeg) },
        tibialTorsionDeg: { right: Math.round(right.tibialTorsionDeg), left: Math.round(left.tibialTorsionDeg) },
      },
    };
    yield { path: `${stem}.session.json`, content: `${JSON.stringify(session, null, 2)}\n` };
  }
}

function withHabits(
  placed: MarkerPositions,
  { thighForwardDeg, shankForwardDeg }: DemoAssessor,
  month: number,
  random: SeededRandom,
): MarkerPositions {
  let positions = placed;
  for (const side of ['right', 'left'] as const) {
    // Nobody turns a wand by the same angle twice.
    positions = turnWand(positions, side, 'TW', thighForwardDeg(month) + random.bell(1));
    positions = turnWand(positions, side, 'SW', shankForwardDeg(month) + random.bell(1));
  }
  if (random.between(0, 1) >= oneTrialInTwentyHasAFault) return positions;
  const side = random.between(0, 1) < 0.5 ? 'R' : 'L';
  return random.between(0, 1) < 0.5
    ? displace(positions, `${side}_HEEL`, { up: random.between(0, 1) < 0.5 ? 14 : -14 })
    : turnWand(positions, side === 'R' ? 'right' : 'left', 'TW', random.between(0, 1) < 0.5 ? 11 : -11);
}

/** A trial of one second of quiet standing with markers where they are put. */
export function film(
  person: StandingPerson,
  positions: MarkerPositions,
  medialMarkersOn: boolean,
  random: SeededRandom,
): Uint8Array {
  const body = {
    ankleForwardMm: (person.right.ankle[0] + person.left.ankle[0]) / 2,
    ankleHeightMm: Math.max(positions.get('R_MM')![2], positions.get('L_MM')![2]),
    massCentreHeightMm: 0.55 * person.description.statureMm,
  };
  const recording = {
    rateHz: 100,
    seconds: 1.2,
    vertical: '+Z',
    units: 'mm',
    headingDeg: Math.round(random.between(0, 360)),
    standsAtMm: [Math.round(random.between(-300, 300)), Math.round(random.between(-300, 300))],
    motion: 'quiet',
    hidden: [],
  } as const;
  return writeC3d(recordTrial(positions, sampleLabels(medialMarkersOn), body, recording, random).contents);
}
