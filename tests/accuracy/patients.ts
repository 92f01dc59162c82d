import { SIDES } from '../../sample-trials/landmarks.ts';
import type { SeededRandom } from '../../sample-trials/seeded-random.ts';
import type { Vec3 } from '../../src/core/geometry/vector.ts';
import { emptySession, type PatientFacts, type Session } from '../../src/core/session/session.ts';
import { pick } from './faults.ts';
import type { RaisedHeels } from './place-markers.ts';
import type { OrdinaryTraits, Person, Population } from './population.ts';

/** A patient far from ordinary, and what a careful assessor would have recorded. */
export interface Patient {
  readonly person: Person;
  readonly recorded: Session;
  readonly raisedMm: RaisedHeels;
}

export interface PatientKind {
  readonly name: string;
  readonly recordedAs: string;
  draw(from: Population, random: SeededRandom): Patient;
}

const flat: RaisedHeels = { right: 0, left: 0 };

function recorded(facts: Partial<PatientFacts>): Session {
  return { ...emptySession, facts: { ...emptySession.facts, ...facts } };
}

const crouch: PatientKind = {
  name: 'crouch with contractures',
  recordedAs: 'contracture of hip and knee, both sides',
  draw(from, random) {
    const shared = random.between(20, 40);
    const bend = { right: shared + random.bell(4), left: shared + random.bell(4) };
    const person = from.draw((traits) => ({
      ...traits,
      right: { ...traits.right, kneeFlexionDeg: bend.right },
      left: { ...traits.left, kneeFlexionDeg: bend.left },
      pelvicSlopeDeg: traits.pelvicSlopeDeg! + random.between(0, 12),
      trunkLeanDeg: traits.trunkLeanDeg! + random.between(0, 10),
    }));
    const contractures = SIDES.flatMap((side) => [
      { joint: 'knee' as const, side, angleDeg: Math.round(bend[side]) },
      { joint: 'hip' as const, side, angleDeg: 15 },
    ]);
    return { person, raisedMm: flat, recorded: recorded({ contractures }) };
  },
};

/** The heel hangs this much further than the ankle rises when the foot stands on its forefoot (lengths of a foot). */
const heelToAnkle = 0.63 / 0.41;

const equinus: PatientKind = {
  name: 'equinus, one side',
  recordedAs: 'heel off the floor with its height, contracture of the ankle',
  draw(from, random) {
    const side = pick(SIDES, random);
    const heelMm = random.between(20, 50);
    const ankleMm = heelMm / heelToAnkle;
    // The leg would be too long by what the ankle rises: it is short by a little, and the knee bends for the rest.
    const shortMm = Math.min(ankleMm, random.between(0, 12));
    const person = from.draw((traits) => {
      const bend = 2 * Math.acos(1 - (ankleMm - shortMm) / (0.47 * traits.statureMm)) * (180 / Math.PI);
      return withLeg(traits, side, {
        malleolusHeightExtraMm: ankleMm,
        shankExtraMm: (traits[side].shankExtraMm ?? 0) - shortMm,
        kneeFlexionDeg: Math.max(bend, traits[side].kneeFlexionDeg ?? 0),
      });
    });
    const heel = person.landmarks.get(side === 'right' ? 'R_HEEL' : 'L_HEEL')!;
    const landmarks = new Map<string, Vec3>(person.landmarks);
    landmarks.set(side === 'right' ? 'R_HEEL' : 'L_HEEL', [heel[0], heel[1], heel[2] + heelMm]);
    const raisedMm = { ...flat, [side]: heelMm };
    return {
      person: { ...person, landmarks },
      raisedMm,
      recorded: recorded({
        variants: [{ id: 'heel-off-floor', side }],
        heelRaiseMm: { right: null, left: null, [side]: Math.round(heelMm) },
        contractures: [{ joint: 'ankle', side, angleDeg: 15 }],
      }),
    };
  },
};

const unequalLegs: PatientKind = {
  name: 'unequal legs',
  recordedAs: 'difference of the legs, measured',
  draw(from, random) {
    const side = pick(SIDES, random);
    const shortMm = random.between(20, 40);
    const thighShare = random.between(0.2, 0.8);
    const person = from.draw((traits) =>
      withLeg(traits, side, {
        thighExtraMm: (traits[side].thighExtraMm ?? 0) - thighShare * shortMm,
        shankExtraMm: (traits[side].shankExtraMm ?? 0) - (1 - thighShare) * shortMm,
      }),
    );
    // A tape errs: two readings of a leg differ by about 5 mm.
    const read = Math.round(shortMm + random.bell(5));
    return {
      person,
      raisedMm: flat,
      recorded: recorded({ legLengthDifferenceMm: side === 'right' ? -read : read }),
    };
  },
};

const turnedPelvis: PatientKind = {
  name: 'pelvis turned against the feet',
  recordedAs: 'contracture of the hips',
  draw(from, random) {
    const turn = (random.between(0, 1) < 0.5 ? -1 : 1) * random.between(18, 30);
    const turned = (leg: OrdinaryTraits['right'], by: number) => ({
      ...leg,
      kneeTurnDeg: leg.kneeTurnDeg! + by,
      footProgressionDeg: leg.footProgressionDeg! + by,
    });
    const person = from.draw((traits) => ({
      ...traits,
      right: turned(traits.right, -turn),
      left: turned(traits.left, turn),
    }));
    const contractures = SIDES.map((side) => ({ joint: 'hip' as const, side, angleDeg: 10 }));
    return { person, raisedMm: flat, recorded: recorded({ contractures }) };
  },
};

export const patientKinds: readonly PatientKind[] = [crouch, equinus, unequalLegs, turnedPelvis];

function withLeg(
  traits: OrdinaryTraits,
  side: 'right' | 'left',
  leg: Partial<OrdinaryTraits['right']>,
): OrdinaryTraits {
  return { ...traits, [side]: { ...traits[side], ...leg } };
}
