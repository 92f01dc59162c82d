import { distance, subtract, type Vec3 } from '../src/core/geometry/vector.ts';
import { type MarkerPositions, markerLabel, SIDES, type Side } from './landmarks.ts';
import type { GivenTraits } from './person-description.ts';
import { type BodyShift, displace, remove, swapLabels, swapSides, turnWand } from './plant-fault.ts';
import type { HiddenFrames, Recording } from './record-trial.ts';

/** One thing done on purpose to a well-placed person; shifts in body axes, millimetres, from right to wrong. */
export type Planted =
  | {
      readonly kind: 'displaced';
      readonly marker: string;
      readonly mm: Required<BodyShift>;
      readonly distanceMm: number;
    }
  | {
      readonly kind: 'wand-turned';
      readonly marker: string;
      readonly turnForwardDeg: number;
      readonly mm: Required<BodyShift>;
      readonly distanceMm: number;
    }
  | { readonly kind: 'labels-exchanged'; readonly markers: readonly string[] }
  | { readonly kind: 'never-visible'; readonly marker: string }
  | { readonly kind: 'never-still' }
  | { readonly kind: 'units'; readonly units: 'm'; readonly vertical: '+Y' }
  | { readonly kind: 'posture'; readonly kneeFlexionDeg: { readonly right: number; readonly left: number } }
  | { readonly kind: 'variant'; readonly id: 'foot-in-supination'; readonly side: Side; readonly sitsOn: string }
  | {
      readonly kind: 'knee-direction-unrecorded';
      readonly kneeTurnDeg: { readonly right: number; readonly left: number };
    };

export interface PlantedPositions {
  readonly positions: MarkerPositions;
  readonly planted: readonly Planted[];
}

export interface Sample {
  readonly name: string;
  /** Pseudonym of the invented subject. */
  readonly code: string;
  readonly seed: number;
  readonly person: GivenTraits;
  readonly medialMarkersOn: boolean;
  readonly recording: Partial<Recording> & Pick<Recording, 'headingDeg'>;
  readonly massKg?: number;
  /** Share of the weight on the right foot, where the person stands with each foot on a force plate. */
  readonly onPlates?: { readonly rightShare: number };
  /** Whether a session file comes with it, and the variants it names. */
  readonly session?: { readonly variants: readonly { readonly id: 'foot-in-supination'; readonly side: Side }[] };
  readonly plant: (positions: MarkerPositions) => PlantedPositions;
}

const nothing = (positions: MarkerPositions): PlantedPositions => ({ positions, planted: [] });

function shifted(
  from: MarkerPositions,
  to: MarkerPositions,
  label: string,
): { mm: Required<BodyShift>; distanceMm: number } {
  const before: Vec3 = from.get(label)!;
  const after: Vec3 = to.get(label)!;
  const [forward, left, up] = subtract(after, before);
  return { mm: { forward, left, up }, distanceMm: distance(before, after) };
}

function displacing(label: string, shift: BodyShift) {
  return (positions: MarkerPositions): PlantedPositions => {
    const after = displace(positions, label, shift);
    return { positions: after, planted: [{ kind: 'displaced', marker: label, ...shifted(positions, after, label) }] };
  };
}

function turningThighWands(sides: readonly Side[], forwardDeg: number) {
  return (positions: MarkerPositions): PlantedPositions => {
    const after = sides.reduce((turned, side) => turnWand(turned, side, 'TW', forwardDeg), positions);
    const planted = sides.map((side): Planted => {
      const marker = markerLabel(side, 'TW');
      return { kind: 'wand-turned', marker, turnForwardDeg: forwardDeg, ...shifted(positions, after, marker) };
    });
    return { positions: after, planted };
  };
}

/** The sacrum's skin leans: going up along it, a marker also comes forward. */
const SACRUM_LEAN_DEG = 15;

function alongTheSacrum(upTheSkinMm: number): BodyShift {
  const lean = (SACRUM_LEAN_DEG * Math.PI) / 180;
  return { forward: upTheSkinMm * Math.sin(lean), up: upTheSkinMm * Math.cos(lean) };
}

const hidden = (label: string, from: number, frames: number): HiddenFrames => ({ label, from, frames });

/**
 * The sample trials in the order in which README.md tells of them. Each seed was chosen so that the drawn rest of the
 * person is ordinary (pelvis nearly level, sacral marker near the middle, a turned wand or low heel hardly off before):
 * what stands out is what was planted.
 */
export const SAMPLES: readonly Sample[] = [
  {
    name: 'adult-well-placed',
    code: 'MR-01',
    seed: 101,
    person: {
      statureMm: 1782,
      sex: 'male',
      ageYears: 34,
      pelvicSlopeDeg: 12,
      right: { kneeTurnDeg: 3 },
      left: { kneeTurnDeg: 6 },
    },
    medialMarkersOn: true,
    recording: { headingDeg: 12, standsAtMm: [420, -130], hidden: [hidden('R_ASIS', 61, 9), hidden('L_MM', 204, 14)] },
    plant: nothing,
  },
  {
    name: 'child-well-placed',
    code: 'MR-02',
    seed: 302,
    person: {
      statureMm: 1224,
      sex: 'female',
      ageYears: 7,
      pelvicSlopeDeg: 14,
      right: { kneeTurnDeg: 4, tibialTorsionDeg: 22, footProgressionDeg: 8 },
      left: { kneeTurnDeg: 1, tibialTorsionDeg: 24, footProgressionDeg: 10 },
    },
    medialMarkersOn: false,
    recording: { headingDeg: -97, standsAtMm: [80, 610], hidden: [hidden('S1', 120, 12)] },
    massKg: 24.5,
    session: { variants: [] },
    plant: nothing,
  },
  {
    name: 'wand-forward',
    code: 'MR-03',
    seed: 8603,
    person: {
      statureMm: 1655,
      sex: 'female',
      ageYears: 41,
      pelvicSlopeDeg: 11,
      right: { kneeTurnDeg: 1 },
      left: { kneeTurnDeg: 4 },
    },
    medialMarkersOn: true,
    recording: { headingDeg: 171, standsAtMm: [-210, 340] },
    plant: turningThighWands(['right'], 9),
  },
  {
    name: 'sacral-high',
    code: 'MR-04',
    seed: 1104,
    person: {
      statureMm: 1731,
      sex: 'male',
      ageYears: 52,
      pelvicSlopeDeg: 18,
      right: { kneeTurnDeg: 5 },
      left: { kneeTurnDeg: 2 },
    },
    medialMarkersOn: true,
    recording: { headingDeg: 88, standsAtMm: [30, 55] },
    plant: displacing('S1', alongTheSacrum(65)),
  },
  {
    name: 'heel-low',
    code: 'MR-05',
    seed: 12505,
    person: {
      statureMm: 1602,
      sex: 'female',
      ageYears: 29,
      pelvicSlopeDeg: 12,
      right: { kneeTurnDeg: 0 },
      left: { kneeTurnDeg: 3 },
    },
    medialMarkersOn: true,
    recording: { headingDeg: -15, standsAtMm: [640, 210], seconds: 5, motion: 'step-in' },
    plant: displacing('L_HEEL', { up: -11 }),
  },
  {
    name: 'epicondyles-swapped',
    code: 'MR-06',
    seed: 1106,
    person: {
      statureMm: 1810,
      sex: 'male',
      ageYears: 23,
      pelvicSlopeDeg: 10,
      right: { kneeTurnDeg: 4 },
      left: { kneeTurnDeg: 7 },
    },
    medialMarkersOn: true,
    recording: { headingDeg: 35, standsAtMm: [-90, -400] },
    plant: (positions) => ({
      positions: swapLabels(positions, 'R_LE', 'L_LE'),
      planted: [{ kind: 'labels-exchanged', markers: ['R_LE', 'L_LE'] }],
    }),
  },
  {
    name: 'sides-swapped',
    code: 'MR-07',
    seed: 407,
    person: {
      statureMm: 1688,
      sex: 'female',
      ageYears: 37,
      pelvicSlopeDeg: 14,
      right: { kneeTurnDeg: 2 },
      left: { kneeTurnDeg: 5 },
    },
    medialMarkersOn: true,
    recording: { headingDeg: -140, standsAtMm: [300, 300] },
    plant: (positions) => ({
      positions: swapSides(positions),
      planted: [{ kind: 'labels-exchanged', markers: [...positions.keys()].filter((label) => /^[RL]_/.test(label)) }],
    }),
  },
  {
    name: 'marker-missing',
    code: 'MR-08',
    seed: 908,
    person: {
      statureMm: 1754,
      sex: 'male',
      ageYears: 45,
      pelvicSlopeDeg: 12,
      right: { kneeTurnDeg: 3 },
      left: { kneeTurnDeg: 4 },
    },
    medialMarkersOn: true,
    recording: { headingDeg: 5, standsAtMm: [0, 120] },
    plant: (positions) => ({
      positions: remove(positions, 'R_MET5'),
      planted: [{ kind: 'never-visible', marker: 'R_MET5' }],
    }),
  },
  {
    name: 'restless-child',
    code: 'MR-09',
    seed: 809,
    person: {
      statureMm: 1187,
      sex: 'male',
      ageYears: 6,
      pelvicSlopeDeg: 13,
      right: { kneeTurnDeg: 2, tibialTorsionDeg: 21, footProgressionDeg: 6 },
      left: { kneeTurnDeg: 4, tibialTorsionDeg: 23, footProgressionDeg: 9 },
    },
    medialMarkersOn: false,
    recording: { headingDeg: 102, standsAtMm: [-50, 20], seconds: 4, motion: 'restless' },
    plant: (positions) => ({ positions, planted: [{ kind: 'never-still' }] }),
  },
  {
    name: 'metres-y-up',
    code: 'MR-10',
    seed: 1010,
    person: {
      statureMm: 1640,
      sex: 'female',
      ageYears: 31,
      pelvicSlopeDeg: 13,
      right: { kneeTurnDeg: 5 },
      left: { kneeTurnDeg: 3 },
    },
    medialMarkersOn: true,
    recording: { headingDeg: 62, standsAtMm: [250, -720], vertical: '+Y', units: 'm' },
    plant: (positions) => ({ positions, planted: [{ kind: 'units', units: 'm', vertical: '+Y' }] }),
  },
  {
    name: 'supinated-foot',
    code: 'MR-11',
    seed: 111,
    person: {
      statureMm: 1562,
      sex: 'male',
      ageYears: 13,
      pelvicSlopeDeg: 14,
      right: { kneeTurnDeg: 4, footProgressionDeg: 10 },
      left: { kneeTurnDeg: 2, footProgressionDeg: 4, footSupinationDeg: 14 },
    },
    medialMarkersOn: true,
    recording: { headingDeg: -62, standsAtMm: [120, 90] },
    massKg: 48,
    session: { variants: [{ id: 'foot-in-supination', side: 'left' }] },
    plant: (positions) => ({
      positions: new Map(positions).set('L_MET5', positions.get('L_MET2')!),
      planted: [{ kind: 'variant', id: 'foot-in-supination', side: 'left', sitsOn: 'L_MET2' }],
    }),
  },
  {
    name: 'knee-bent',
    code: 'MR-12',
    seed: 612,
    person: {
      statureMm: 1604,
      sex: 'male',
      ageYears: 14,
      pelvicSlopeDeg: 15,
      trunkLeanDeg: 3,
      right: { kneeTurnDeg: 3 },
      left: { kneeTurnDeg: 5, kneeFlexionDeg: 40 },
    },
    medialMarkersOn: true,
    recording: { headingDeg: 145, standsAtMm: [-330, -60] },
    plant: (positions) => ({ positions, planted: [{ kind: 'posture', kneeFlexionDeg: { right: 3, left: 40 } }] }),
  },
  {
    name: 'knee-direction-unknown',
    code: 'MR-13',
    seed: 113,
    person: {
      statureMm: 1672,
      sex: 'female',
      ageYears: 26,
      pelvicSlopeDeg: 12,
      right: { kneeTurnDeg: 12, footProgressionDeg: 14 },
      left: { kneeTurnDeg: 12, footProgressionDeg: 15 },
    },
    medialMarkersOn: false,
    recording: { headingDeg: -30, standsAtMm: [510, 40] },
    plant: (positions) => ({
      positions,
      planted: [{ kind: 'knee-direction-unrecorded', kneeTurnDeg: { right: 12, left: 12 } }],
    }),
  },
  {
    name: 'turned-wands-both-sides',
    code: 'MR-14',
    seed: 12415,
    person: {
      statureMm: 1765,
      sex: 'male',
      ageYears: 39,
      pelvicSlopeDeg: 11,
      right: { kneeTurnDeg: 3 },
      left: { kneeTurnDeg: 1 },
    },
    medialMarkersOn: true,
    recording: { headingDeg: 20, standsAtMm: [-150, 480] },
    plant: turningThighWands(SIDES, 8),
  },
  {
    name: 'on-force-plates',
    code: 'MR-15',
    seed: 1515,
    person: {
      statureMm: 1731,
      sex: 'female',
      ageYears: 35,
      pelvicSlopeDeg: 12,
      right: { kneeTurnDeg: 2 },
      left: { kneeTurnDeg: 4 },
    },
    medialMarkersOn: true,
    recording: { headingDeg: 0, standsAtMm: [300, 150], seconds: 5, motion: 'step-in' },
    massKg: 66.2,
    session: { variants: [] },
    onPlates: { rightShare: 0.56 },
    plant: nothing,
  },
];
