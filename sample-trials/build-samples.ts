import { writeC3d } from '../src/core/c3d/write-c3d.ts';
import type { Vec3 } from '../src/core/geometry/vector.ts';
import { bendKnees } from './bend-knees.ts';
import { type MarkerPositions, markerLabel, SIDES } from './landmarks.ts';
import { measureMidline, measureSide } from './measure-placement.ts';
import { describePerson } from './person-description.ts';
import { placeByHand } from './place-by-hand.ts';
import { type RecordedTrial, type Recording, recordTrial } from './record-trial.ts';
import { type Planted, SAMPLES, type Sample } from './sample-list.ts';
import { type SeededRandom, seededRandom } from './seeded-random.ts';
import { type OnPlates, standOnPlates } from './stand-on-plates.ts';
import { type StandingPerson, standingPerson } from './standing-person.ts';

/** Labels of the marker set lower-limb-wands-22, in its order; the medial ones are optional. */
const REQUIRED_SIDE_LANDMARKS = ['GT', 'TW', 'LE', 'HF', 'SW', 'LM', 'HEEL', 'MET5'] as const;
const MEDIAL_LANDMARKS = ['ME', 'MM'] as const;
/** The mass centre of a standing adult lies at about .55 of stature (from memory). */
const MASS_CENTRE_SHARE = 0.55;
/** A tape or calliper reading against the truth; whole millimetres are written down. */
const TAPE_SD_MM = 2.5;

export function sampleLabels(medialMarkersOn: boolean): string[] {
  const sideLandmarks = medialMarkersOn ? [...REQUIRED_SIDE_LANDMARKS, ...MEDIAL_LANDMARKS] : REQUIRED_SIDE_LANDMARKS;
  const trunk = ['C7', 'R_ACR', 'L_ACR', 'R_ASIS', 'L_ASIS', 'S1'];
  return [...trunk, ...SIDES.flatMap((side) => sideLandmarks.map((landmark) => markerLabel(side, landmark)))];
}

/** One sample made from end to end: who stood there, where the markers were put, what was planted, what was filmed. */
export interface BuiltSample {
  readonly sample: Sample;
  readonly person: StandingPerson;
  /** As the assessor placed them, before anything was planted; body axes, millimetres. */
  readonly placed: MarkerPositions;
  /** As they are in the file, under the file's labels. */
  readonly inFile: MarkerPositions;
  readonly planted: readonly Planted[];
  readonly recording: Recording;
  readonly trial: RecordedTrial;
  /** What the force plates under the person were told, where there are any. */
  readonly onPlates: OnPlates | null;
  readonly session: object | null;
}

export function buildSample(sample: Sample): BuiltSample {
  const random = seededRandom(sample.seed);
  const person = standingPerson(describePerson(sample.person, random));
  const placed = placeByHand(person, random);
  const { positions, planted } = sample.plant(placed);
  const recording: Recording = {
    rateHz: 100,
    seconds: 3,
    vertical: '+Z',
    units: 'mm',
    standsAtMm: [0, 0],
    motion: 'quiet',
    hidden: [],
    ...sample.recording,
  };
  const body = {
    ankleForwardMm: (person.right.ankle[0] + person.left.ankle[0]) / 2,
    ankleHeightMm: Math.max(placed.get('R_MM')![2], placed.get('L_MM')![2]),
    massCentreHeightMm: MASS_CENTRE_SHARE * person.description.statureMm,
  };
  const filmed = recordTrial(positions, sampleLabels(sample.medialMarkersOn), body, recording, random);
  const { trial, onPlates } = withPlates(filmed, sample, positions, recording, random);
  const session = sample.session === undefined ? null : writeSession(sample, person, placed);
  return { sample, person, placed, inFile: positions, planted, recording, trial, onPlates, session };
}

function withPlates(
  filmed: RecordedTrial,
  { onPlates, massKg }: Sample,
  positions: MarkerPositions,
  recording: Recording,
  random: SeededRandom,
): { trial: RecordedTrial; onPlates: OnPlates | null } {
  if (onPlates === undefined || massKg === undefined) return { trial: filmed, onPlates: null };
  const { frameCount } = filmed.contents;
  const stood = standOnPlates(positions, massKg, onPlates.rightShare, recording, frameCount, random);
  const { analog, groups } = stood;
  return { trial: { ...filmed, contents: { ...filmed.contents, analog, groups } }, onPlates: stood.planted };
}

/** Knee bends of the people in two of the sample trials, with the markers that they stand with there. */
export function buildKneeBends(): Map<string, Uint8Array> {
  return new Map(
    ['adult-well-placed', 'wand-forward'].map((name) => {
      const { sample, person, inFile, recording } = buildSample(SAMPLES.find((one) => one.name === name)!);
      return [`${name}.c3d`, writeC3d(bendKnees(person, inFile, recording, seededRandom(sample.seed + 2000)))];
    }),
  );
}

/** Every file of the sample trials by name: C3D bytes, session files, and planted.json. */
export function buildSampleFiles(): Map<string, Uint8Array | string> {
  const files = new Map<string, Uint8Array | string>();
  const built = SAMPLES.map(buildSample);
  for (const { sample, trial, session } of built) {
    files.set(`${sample.name}.c3d`, writeC3d(trial.contents));
    if (session !== null) files.set(`${sample.name}.session.json`, layOut(session));
  }
  files.set('planted.json', layOut(writePlanted(built)));
  return files;
}

/** The well-placed adult as another laboratory would have filmed him: its own labels, which no marker set knows. */
export function buildAnotherLab(): { bytes: Uint8Array; labelOf: ReadonlyMap<string, string> } {
  const { contents } = buildSample(SAMPLES.find(({ name }) => name === 'adult-well-placed')!).trial;
  const labels = contents.labels.map((_, index) => `pin ${String(index + 1).padStart(2, '0')}`);
  return {
    bytes: writeC3d({ ...contents, labels }),
    labelOf: new Map(contents.labels.map((label, index) => [label, labels[index]!])),
  };
}

function writeSession(sample: Sample, person: StandingPerson, placed: MarkerPositions): object {
  const random = seededRandom(sample.seed + 1000);
  const { statureMm, sex, ageYears, markerRadiusMm } = person.description;
  const measured = (trueMm: number): number => Math.round(trueMm + random.bell(TAPE_SD_MM, 1.5));
  const right = measureSide(placed, 'right', markerRadiusMm);
  const left = measureSide(placed, 'left', markerRadiusMm);
  const pair = (measure: string, rightMm: number, leftMm: number) => [
    { measure, side: 'right', value: measured(rightMm), unit: 'mm' },
    { measure, side: 'left', value: measured(leftMm), unit: 'mm' },
  ];
  return {
    format: 'setsquare-session/1',
    subject: { code: sample.code, ageYears, sex },
    measurements: [
      { measure: 'stature', value: statureMm, unit: 'mm' },
      { measure: 'mass', value: sample.massKg, unit: 'kg' },
      { measure: 'pelvisWidth', value: measured(measureMidline(placed).asisDistanceMm), unit: 'mm' },
      ...pair('legLength', right.legLengthMm, left.legLengthMm),
      ...pair('kneeDiameter', right.kneeWidthMm, left.kneeWidthMm),
      ...pair('ankleDiameter', right.ankleWidthMm, left.ankleWidthMm),
    ],
    facts: {
      kneeTurnDeg: { right: Math.round(right.kneeTurnDeg), left: Math.round(left.kneeTurnDeg) },
      tibialTorsionDeg: { right: Math.round(right.tibialTorsionDeg), left: Math.round(left.tibialTorsionDeg) },
      variants: sample.session?.variants ?? [],
    },
  };
}

function writePlanted(built: readonly BuiltSample[]): object {
  return {
    format: 'setsquare-sample-trials/1',
    axes: 'forward, left, up of the body axes that the placed ASIS markers define; origin mid-ASIS on the floor; mm',
    trials: Object.fromEntries(built.map((one) => [one.sample.name, describeTruth(one)])),
  };
}

function describeTruth({
  sample,
  person,
  placed,
  inFile,
  planted,
  recording,
  trial,
  onPlates,
  session,
}: BuiltSample): object {
  const { description } = person;
  const optional = sample.medialMarkersOn ? ['R_ME', 'R_MM', 'L_ME', 'L_MM'] : [];
  const isInSet = new Set(sampleLabels(true));
  const onBody = [...inFile].filter(([label]) => trial.contents.labels.includes(label));
  return {
    markerSet: 'lower-limb-wands-22',
    optionalMarkers: optional,
    session: session === null ? null : `${sample.name}.session.json`,
    planted: planted.map((one) =>
      one.kind === 'labels-exchanged' ? { ...one, markers: one.markers.filter((label) => isInSet.has(label)) } : one,
    ),
    onPlates: onPlates ?? undefined,
    subject: { code: sample.code },
    person: { ...description, pelvicObliquityDeg: person.pelvicObliquityDeg },
    asPlaced: {
      midline: measureMidline(placed),
      right: measureSide(placed, 'right', description.markerRadiusMm),
      left: measureSide(placed, 'left', description.markerRadiusMm),
    },
    recording: {
      rateHz: recording.rateHz,
      frames: trial.contents.frameCount,
      stillFromFrame: trial.stillFromFrame === null ? null : trial.stillFromFrame + 1,
      units: recording.units,
      vertical: recording.vertical,
      headingDeg: recording.headingDeg,
      standsAtMm: recording.standsAtMm,
      hidden: recording.hidden.map(({ label, from, frames }) => ({
        label,
        firstFrame: from + 1,
        lastFrame: from + frames,
      })),
    },
    markersMm: Object.fromEntries(onBody.map(([label, position]): [string, Vec3] => [label, position])),
  };
}

/** JSON as this repository formats it: a line for each key, short lists on one line, numbers to 0.01. */
function layOut(value: object): string {
  return `${layOutPart(value, '')}\n`;
}

function layOutPart(value: unknown, indent: string): string {
  const deeper = `${indent}  `;
  if (typeof value === 'number') return String(Math.round(value * 100) / 100 + 0);
  if (Array.isArray(value)) {
    const parts = value.map((part) => layOutPart(part, deeper));
    const flat = `[${parts.join(', ')}]`;
    if (parts.length === 0 || (!value.some((part) => typeof part === 'object') && flat.length < 80)) return flat;
    return `[\n${parts.map((part) => deeper + part).join(',\n')}\n${indent}]`;
  }
  if (typeof value === 'object' && value !== null) {
    const keys = Object.entries(value).filter(([, part]) => part !== undefined);
    const parts = keys.map(([key, part]) => `${deeper}${JSON.stringify(key)}: ${layOutPart(part, deeper)}`);
    return `{\n${parts.join(',\n')}\n${indent}}`;
  }
  return JSON.stringify(value);
}
