import type { MarkerPositions } from '../../sample-trials/landmarks.ts';
import { describePerson, type GivenTraits, type PersonDescription } from '../../sample-trials/person-description.ts';
import { placeByHand } from '../../sample-trials/place-by-hand.ts';
import { seededRandom } from '../../sample-trials/seeded-random.ts';
import { standingPerson } from '../../sample-trials/standing-person.ts';

/** A person whose size follows from the seed: children from five years, women and men. */
export function describeOrdinaryPerson(seed: number, given: Partial<GivenTraits> = {}): PersonDescription {
  const random = seededRandom(seed);
  const ageYears = Math.round(random.between(5, 60));
  const sex = random.between(0, 1) < 0.5 ? 'male' : 'female';
  const adultMm = (sex === 'male' ? 1756 : 1628) + random.bell(67, 2);
  // Stature of children in a straight line from 1.10 m at five to the adult's at sixteen, near enough for this.
  const statureMm = ageYears >= 16 ? adultMm : 1100 + ((ageYears - 5) / 11) * (adultMm - 1100);
  return describePerson({ ageYears, sex, statureMm: Math.round(statureMm), ...given }, random);
}

/** Every marker exactly where the protocol wants it. */
export function wellPlaced(seed: number, given: Partial<GivenTraits> = {}): MarkerPositions {
  return standingPerson(describeOrdinaryPerson(seed, given)).markers;
}

/** Every marker where a careful hand puts it: about 3 mm off for palpated ones. */
export function placedByHand(seed: number, given: Partial<GivenTraits> = {}): MarkerPositions {
  return placeByHand(standingPerson(describeOrdinaryPerson(seed, given)), seededRandom(seed + 500_000));
}

/** Nothing about this adult differs between right and left, and everything else is as it is on average. */
export function symmetricAdult(given: Partial<GivenTraits> = {}): MarkerPositions {
  const leg = {
    kneeTurnDeg: 2.5,
    tibialTorsionDeg: 28,
    footProgressionDeg: 11,
    kneeFlexionDeg: 3,
    thighExtraMm: 0,
    shankExtraMm: 0,
    malleolusHeightExtraMm: 0,
    footForwardMm: 0,
    footSupinationDeg: 0,
  };
  const description: PersonDescription = {
    statureMm: 1700,
    sex: 'female',
    ageYears: 35,
    pelvicSlopeDeg: 13,
    trunkLeanDeg: -2.5,
    hipForwardMm: 56,
    sacralLeftMm: 0,
    markerRadiusMm: 7,
    ...given,
    right: { ...leg, ...given.right },
    left: { ...leg, ...given.left },
  };
  return standingPerson(description).markers;
}

/** Positions as the core holds them: index marker * 3 in the order of the labels; NaN for a marker that is not there. */
export function inOrder(positions: MarkerPositions, labels: readonly string[]): Float64Array {
  const nowhere = [Number.NaN, Number.NaN, Number.NaN];
  return Float64Array.from(labels.flatMap((label) => positions.get(label) ?? nowhere));
}
