import { markerLabel, SIDES, type SideLandmark } from '../../sample-trials/landmarks.ts';
import { describePerson, type LegDescription } from '../../sample-trials/person-description.ts';
import { type SeededRandom, seededRandom } from '../../sample-trials/seeded-random.ts';
import { standingPerson } from '../../sample-trials/standing-person.ts';
import { wandOffsetsMm, wandTip } from '../../sample-trials/wand.ts';
import { subtract, type Vec3 } from '../../src/core/geometry/vector.ts';

/**
 * People that the norms were not made on: other spreads (each a draw from 0.7 to 1.4 of what is usual, anew for every
 * population), other correlations, and heavy tails (Student's t with four degrees of freedom, scaled to its SD).
 */
export interface Population {
  /** Places of the landmarks on the bone, body axes, mm; wands and heels not yet set. */
  draw(): { readonly landmarks: Map<string, Vec3>; readonly statureMm: number };
}

/** How far landmarks lie from where the mean skeleton has them: both sides together, one side by itself; mm, adult. */
const usualSpread: Readonly<Partial<Record<SideLandmark, { shared: Vec3; own: Vec3 }>>> = {
  ACR: { shared: [7, 9, 12], own: [5, 4, 6] },
  ASIS: { shared: [4, 10, 8], own: [2, 3, 3.5] },
  GT: { shared: [9, 7, 14], own: [4, 2, 4] },
  LE: { shared: [4, 3, 9], own: [2, 1, 3] },
  ME: { shared: [4, 3, 9], own: [2, 1, 3] },
  HF: { shared: [4, 2, 7], own: [2, 1, 2.5] },
  LM: { shared: [3, 2, 4], own: [2, 1, 3] },
  MM: { shared: [3, 2, 4], own: [2, 1, 3] },
  MET5: { shared: [7, 3, 2], own: [3, 2, 1] },
};

export function population(seed: number): Population {
  const random = seededRandom(seed);
  const factor = (): number => random.between(0.7, 1.4);
  const spread = Object.entries(usualSpread).map(([landmark, { shared, own }]) => ({
    landmark: landmark as SideLandmark,
    shared: shared.map((sd) => sd * factor()),
    own: own.map((sd) => sd * factor()),
  }));
  const posture = {
    turn: 7 * factor(),
    ownTurn: 5.4 * factor(),
    torsion: 6 * factor(),
    foot: 9 * factor(),
    slope: 9 * factor(),
    bend: 4 * factor(),
    leg: 2.5 * factor(),
    lean: 3 * factor(),
  };
  const tail = (sd: number): number => heavy(random, sd);
  return {
    draw() {
      const child = random.between(0, 1) < 0.3;
      const sex = random.between(0, 1) < 0.5 ? 'male' : 'female';
      const statureMm = child
        ? random.between(1100, 1550)
        : sex === 'male'
          ? 1756 + random.bell(69)
          : 1629 + random.bell(64);
      const both = {
        turn: tail(posture.turn),
        torsion: tail(posture.torsion),
        foot: tail(posture.foot),
        bend: tail(posture.bend),
      };
      const leg = (): Partial<LegDescription> => ({
        kneeTurnDeg: 2.5 + both.turn + tail(posture.ownTurn),
        tibialTorsionDeg: 28 + both.torsion + tail(4),
        // Feet follow the knees in part: a correlation that the norms do not hold.
        footProgressionDeg: 11 + both.foot + 0.4 * both.turn + tail(6),
        kneeFlexionDeg: 3 + both.bend + tail(2),
        thighExtraMm: tail(posture.leg),
        shankExtraMm: tail(posture.leg),
      });
      const given = {
        statureMm,
        sex,
        ageYears: child ? 9 : 40,
        right: leg(),
        left: leg(),
        pelvicSlopeDeg: 12.8 + tail(posture.slope),
        trunkLeanDeg: -2 + tail(posture.lean),
        sacralLeftMm: tail(3),
      } as const;
      const landmarks = new Map(standingPerson(describePerson(given, random)).markers);
      const size = statureMm / 1756;
      for (const { landmark, shared, own } of spread) {
        const together = shared.map(tail);
        for (const side of SIDES) {
          const label = markerLabel(side, landmark);
          const outward = side === 'right' ? -1 : 1;
          const by = together.map((value, axis) => (value + tail(own[axis]!)) * size);
          const [x, y, z] = landmarks.get(label)!;
          landmarks.set(label, [x + by[0]!, y + outward * by[1]!, z + by[2]!]);
        }
      }
      return { landmarks, statureMm };
    },
  };
}

/** Student's t with four degrees of freedom, scaled so that its SD is `sd`; not further than six of them. */
function heavy(random: SeededRandom, sd: number): number {
  const chi = [1, 2, 3, 4].reduce((sum) => sum + random.bell(1, 8) ** 2, 0);
  const t = random.bell(1, 8) / Math.sqrt(chi / 4);
  return Math.max(-6, Math.min(6, t / Math.SQRT2)) * sd;
}

/** Wands and heels set by eye on the landmarks as they are marked, to a degree or two and a millimetre. */
export function setByEye(
  marked: Map<string, Vec3>,
  statureMm: number,
  scatterMm: number,
  random: SeededRandom,
): Map<string, Vec3> {
  const offsets = wandOffsetsMm(statureMm);
  for (const side of SIDES) {
    const at = (landmark: SideLandmark): Vec3 => marked.get(markerLabel(side, landmark))!;
    const wand = (top: SideLandmark, bottom: SideLandmark, medial: SideLandmark, offsetMm: number): Vec3 =>
      wandTip({
        top: at(top),
        bottom: at(bottom),
        axis: subtract(at(bottom), at(medial)),
        side,
        offsetMm: offsetMm * (1 + random.bell(0.05)),
        share: 0.5 + random.bell(0.03),
        turnDeg: random.bell((Math.min(scatterMm, 3) / offsetMm) * 57.3),
      });
    marked.set(markerLabel(side, 'TW'), wand('GT', 'LE', 'ME', offsets.thigh));
    marked.set(markerLabel(side, 'SW'), wand('HF', 'LM', 'MM', offsets.shank));
    const heel = at('HEEL');
    marked.set(markerLabel(side, 'HEEL'), [heel[0], heel[1], at('MET5')[2] + random.bell(Math.min(scatterMm, 2.5))]);
  }
  return marked;
}
