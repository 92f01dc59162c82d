import { add, type Vec3 } from '../src/core/geometry/vector.ts';
import { type DemoFile, film } from './demo-archive.ts';
import { type MarkerPositions, markerLabel, SIDES, type SideLandmark } from './landmarks.ts';
import { describePerson, type GivenTraits, type LegDescription, type PersonDescription } from './person-description.ts';
import { placeByHand } from './place-by-hand.ts';
import { turnWand } from './plant-fault.ts';
import { type SeededRandom, seededRandom } from './seeded-random.ts';
import { type StandingPerson, standingPerson } from './standing-person.ts';

/** How an invented assessor finds landmarks: what is always off, and how much it scatters from day to day. */
export interface StudyAssessor {
  readonly code: string;
  /** Always so far from where the protocol wants it; mm along the body, both sides. */
  readonly always: Readonly<Record<string, { readonly forward?: number; readonly up?: number }>>;
  readonly thighWandForwardDeg: number;
  /** Times the usual scatter from day to day. */
  readonly scatter: number;
}

/** AK works as the protocol says. BN puts the sacral marker high. CS sets thigh wands forward and scatters more. */
export const studyAssessors: readonly StudyAssessor[] = [
  { code: 'AK', always: {}, thighWandForwardDeg: 0, scatter: 1 },
  { code: 'BN', always: { S1: { up: 9 } }, thighWandForwardDeg: 0, scatter: 1 },
  { code: 'CS', always: {}, thighWandForwardDeg: 4, scatter: 1.5 },
];

/** Scatter of palpation from day to day along the two directions of the skin, 1 SD, mm: beyond the hand's own 2 mm. */
export const palpationScatterMm: Readonly<
  Record<string, { readonly forward?: number; readonly left?: number; readonly up?: number }>
> = {
  C7: { up: 4, left: 2 },
  S1: { up: 5, left: 3 },
  ACR: { forward: 3, left: 3 },
  ASIS: { up: 3, left: 3 },
  GT: { forward: 8, up: 8 },
  LE: { forward: 4, up: 3 },
  ME: { forward: 4, up: 3 },
  HF: { forward: 3, up: 4 },
  LM: { forward: 2, up: 2 },
  MM: { forward: 2, up: 2 },
  MET5: { forward: 3 },
};

const studySubjects: readonly (GivenTraits & { readonly code: string })[] = [
  { code: 'V1', statureMm: 1682, sex: 'female', ageYears: 31 },
  { code: 'V2', statureMm: 1795, sex: 'male', ageYears: 44 },
  { code: 'V3', statureMm: 1421, sex: 'female', ageYears: 11 },
  { code: 'V4', statureMm: 1738, sex: 'male', ageYears: 27 },
  { code: 'V5', statureMm: 1610, sex: 'female', ageYears: 58 },
];

const sessions = 2;

/** A study of invented people: its design and every trial of it. */
export function* buildDemoStudy(seed = 1): Iterable<DemoFile> {
  const captures: object[] = [];
  for (const [which, { code: subject, ...traits }] of studySubjects.entries()) {
    const description = describePerson(traits, seededRandom(seed * 1009 + which));
    for (const [hand, assessor] of studyAssessors.entries()) {
      for (let session = 1; session <= sessions; session += 1) {
        const random = seededRandom(seed * 100_003 + which * 997 + hand * 31 + session);
        const person = standingPerson(standsThatDay(description, random));
        const trial = `${subject}-${assessor.code}-${session}.c3d`;
        const day = 2 + which + (session - 1) * (7 + ((which + hand) % 3));
        const on = `2025-11-${String(day).padStart(2, '0')}`;
        captures.push({ subject, assessor: assessor.code, session: String(session), trial, on });
        yield { path: trial, content: film(person, placedBy(assessor, person, random), true, random) };
      }
    }
  }
  const design = {
    format: 'setsquare-study/1',
    title: 'Yearly study of placement, 2025',
    site: 'MR',
    markerSet: 'lower-limb-wands-22',
    skinMarksRemoved: true,
    nextDue: '2027-11-30',
    captures,
  };
  yield { path: 'study.json', content: `${JSON.stringify(design, null, 2)}\n` };
}

/** Nobody stands twice alike: about 2 degrees in knees, feet and pelvis (from memory). */
export function standsThatDay(person: PersonDescription, random: SeededRandom): PersonDescription {
  const leg = (side: LegDescription): LegDescription => ({
    ...side,
    kneeFlexionDeg: Math.max(0, side.kneeFlexionDeg + random.bell(2)),
    footProgressionDeg: side.footProgressionDeg + random.bell(2),
    footForwardMm: side.footForwardMm + random.bell(8),
  });
  return {
    ...person,
    trunkLeanDeg: person.trunkLeanDeg + random.bell(1),
    pelvicSlopeDeg: person.pelvicSlopeDeg + random.bell(1.5),
    right: leg(person.right),
    left: leg(person.left),
  };
}

/** Landmarks as this assessor finds them on this day, then wands and heels set by eye against them. */
export function placedBy(assessor: StudyAssessor, person: StandingPerson, random: SeededRandom): MarkerPositions {
  const found = new Map(person.markers);
  const find = (label: string, landmark: string): void => {
    const place = found.get(label);
    if (place === undefined) return;
    const usual = palpationScatterMm[landmark] ?? {};
    const always = assessor.always[landmark] ?? {};
    const scatter: Vec3 = [usual.forward ?? 0, usual.left ?? 0, usual.up ?? 0];
    const off = scatter.map((sd) => (sd === 0 ? 0 : random.bell(sd * assessor.scatter))) as Vec3;
    found.set(label, add(add(place, off), [always.forward ?? 0, 0, always.up ?? 0]));
  };
  for (const landmark of ['C7', 'S1']) find(landmark, landmark);
  for (const side of SIDES) {
    for (const landmark of Object.keys(palpationScatterMm)) find(markerLabel(side, landmark as SideLandmark), landmark);
  }
  const placed = placeByHand({ ...person, markers: found }, random);
  return SIDES.reduce<MarkerPositions>(
    (positions, side) => turnWand(positions, side, 'TW', assessor.thighWandForwardDeg + random.bell(1)),
    placed,
  );
}
