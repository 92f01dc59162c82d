import { markerLabel, SIDES, type Side, type SideLandmark } from '../../sample-trials/landmarks.ts';
import { describePerson, type GivenTraits, type LegDescription } from '../../sample-trials/person-description.ts';
import { type SeededRandom, seededRandom } from '../../sample-trials/seeded-random.ts';
import { standingPerson } from '../../sample-trials/standing-person.ts';
import type { Vec3 } from '../../src/core/geometry/vector.ts';

/** Somebody who stands there, every landmark where the bone has it; body axes, mm. */
export interface Person {
  /** Wands and heels are not yet set. */
  readonly landmarks: Map<string, Vec3>;
  readonly statureMm: number;
}

/** Makes a patient of an ordinary person, before the skeleton is put together. */
export type Shape = (traits: OrdinaryTraits) => OrdinaryTraits;
export type OrdinaryTraits = GivenTraits & {
  readonly right: Partial<LegDescription>;
  readonly left: Partial<LegDescription>;
};

export interface Population {
  draw(shape?: Shape): Person;
}

/**
 * How people differ from the mean skeleton, 1 SD: both sides together and one side by itself; mm, for an adult man.
 * Sized so that a population with these spreads, marked with a scatter of 4 mm, spreads as 62 openly published standing
 * trials of about 50 people do, whose spread holds posture, anatomy and placement together; population.test.ts holds them
 * to it. Landmarks that were not measured there: ANSUR II for heights, else from memory.
 */
const usualSpread: Readonly<Partial<Record<SideLandmark, { shared: Vec3; own: Vec3 }>>> = {
  ACR: { shared: [7, 9, 12], own: [5, 4, 6] },
  ASIS: { shared: [4, 10, 6], own: [2, 2, 2.4] },
  GT: { shared: [9, 7, 14], own: [4, 2, 4] },
  LE: { shared: [3, 3, 6], own: [1.5, 1, 3] },
  ME: { shared: [3, 3, 6], own: [1.5, 1, 3] },
  HF: { shared: [4, 2, 6], own: [2, 1, 2.5] },
  LM: { shared: [3, 2, 4], own: [2, 1, 3.4] },
  MM: { shared: [3, 2, 4], own: [2, 1, 3] },
  MET5: { shared: [7, 3, 2], own: [3, 2, 1] },
};
/** C7; vertebrae of 34 healthy people stood within 25 mm of the midline (2 SD) with the lean of the trunk; from memory. */
const usualNeckSpread: Readonly<Vec3> = [8, 8, 8];
const usualPosture = {
  kneeTurnDeg: { shared: 6.6, own: 4.2 },
  tibialTorsionDeg: { shared: 6, own: 4 },
  footProgressionDeg: { shared: 10.5, own: 8 },
  kneeFlexionDeg: { shared: 7, own: 3.5 },
  boneLengthMm: 2,
  pelvicSlopeDeg: 8.3,
  trunkLeanDeg: 3,
  sacralLeftMm: 1.5,
} as const;

/**
 * People that the norms were not made on. Every spread is anew for each population, 0.7 to 1.4 of the usual one (evenly in
 * the logarithm); joints depend on each other as the norms do not know; tails are heavy (Student's t with six degrees of
 * freedom, which gives the ratio of SD to the range from the tenth to the ninetieth percentile that the median of the
 * twelve quantities of those 62 trials has: 1.09 of the normal one).
 */
export function population(seed: number, spreads: 'varied' | 'usual' = 'varied'): Population {
  const random = seededRandom(seed);
  const factor = (): number => (spreads === 'usual' ? 1 : 0.7 * 2 ** random.between(0, 1));
  const coupling = (low: number, high: number): number => random.between(low, high);
  const landmarkSpread = Object.entries(usualSpread).map(([landmark, { shared, own }]) => ({
    landmark: landmark as SideLandmark,
    shared: shared.map((sd) => sd * factor()),
    own: own.map((sd) => sd * factor()),
  }));
  const neckSpread = usualNeckSpread.map((sd) => sd * factor());
  const varied = ({ shared, own }: { shared: number; own: number }) => ({
    shared: shared * factor(),
    own: own * factor(),
  });
  const posture = {
    turn: varied(usualPosture.kneeTurnDeg),
    torsion: varied(usualPosture.tibialTorsionDeg),
    foot: varied(usualPosture.footProgressionDeg),
    bend: varied(usualPosture.kneeFlexionDeg),
    boneMm: usualPosture.boneLengthMm * factor(),
    slope: usualPosture.pelvicSlopeDeg * factor(),
    lean: usualPosture.trunkLeanDeg * factor(),
    sacralMm: usualPosture.sacralLeftMm * factor(),
    // Correlations that the norms do not hold; degree for degree.
    footByTurn: coupling(0, 0.6),
    leanBySlope: coupling(-0.15, 0.15),
    bendBySlope: coupling(-0.3, 0.3),
  };
  const tail = (sd: number): number => heavy(random, sd);
  const drawTraits = (): OrdinaryTraits => {
    const child = random.between(0, 1) < 0.3;
    const sex = random.between(0, 1) < 0.5 ? 'male' : 'female';
    const statureMm = child
      ? random.between(1100, 1550)
      : sex === 'male'
        ? 1756 + random.bell(69)
        : 1629 + random.bell(64);
    const slope = tail(posture.slope);
    const both = {
      turn: tail(posture.turn.shared),
      torsion: tail(posture.torsion.shared),
      foot: tail(posture.foot.shared),
      bend: tail(posture.bend.shared) + posture.bendBySlope * slope,
    };
    const leg = (): Partial<LegDescription> => ({
      kneeTurnDeg: 2.5 + both.turn + tail(posture.turn.own),
      tibialTorsionDeg: 28 + both.torsion + tail(posture.torsion.own),
      footProgressionDeg: 11 + both.foot + posture.footByTurn * both.turn + tail(posture.foot.own),
      kneeFlexionDeg: 0.5 + both.bend + tail(posture.bend.own),
      thighExtraMm: tail(posture.boneMm),
      shankExtraMm: tail(posture.boneMm),
    });
    return {
      statureMm,
      sex,
      ageYears: child ? 9 : 40,
      right: leg(),
      left: leg(),
      pelvicSlopeDeg: 12.8 + slope,
      trunkLeanDeg: -2 + posture.leanBySlope * slope + tail(posture.lean),
      sacralLeftMm: tail(posture.sacralMm),
    };
  };
  return {
    draw(shape = (traits) => traits) {
      const traits = shape(drawTraits());
      const landmarks = new Map(standingPerson(describePerson(traits, random)).markers);
      const size = traits.statureMm / 1756;
      for (const { landmark, shared, own } of landmarkSpread) {
        const together = shared.map(tail);
        for (const side of SIDES) {
          const by = together.map((value, axis) => (value + tail(own[axis]!)) * size) as Vec3;
          moveOutward(landmarks, side, landmark, by);
        }
      }
      const [forward, left, up] = neckSpread.map((sd) => tail(sd) * size) as Vec3;
      const neck = landmarks.get('C7')!;
      landmarks.set('C7', [neck[0] + forward, neck[1] + left, neck[2] + up]);
      return { landmarks, statureMm: traits.statureMm };
    },
  };
}

function moveOutward(landmarks: Map<string, Vec3>, side: Side, landmark: SideLandmark, by: Vec3): void {
  const label = markerLabel(side, landmark);
  const [forward, left, up] = landmarks.get(label)!;
  const outward = side === 'right' ? -1 : 1;
  landmarks.set(label, [forward + by[0], left + outward * by[1], up + by[2]]);
}

const degreesOfFreedom = 6;

/** Student's t scaled so that its SD is `sd`; not further than six of them. */
function heavy(random: SeededRandom, sd: number): number {
  let chi = 0;
  for (let i = 0; i < degreesOfFreedom; i += 1) chi += random.bell(1, 8) ** 2;
  const t = random.bell(1, 8) / Math.sqrt(chi / degreesOfFreedom);
  const unit = t / Math.sqrt(degreesOfFreedom / (degreesOfFreedom - 2));
  return Math.max(-6, Math.min(6, unit)) * sd;
}
