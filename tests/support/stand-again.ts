import type { MarkerPositions } from '../../sample-trials/landmarks.ts';
import type { PersonDescription } from '../../sample-trials/person-description.ts';
import { placeByHand } from '../../sample-trials/place-by-hand.ts';
import { seededRandom } from '../../sample-trials/seeded-random.ts';
import { standingPerson } from '../../sample-trials/standing-person.ts';
import { describeOrdinaryPerson } from './ordinary-people.ts';

/**
 * The same person with the same markers on, who has sat down and stands again: knees, feet, pelvis and trunk are a little
 * different (1 SD 3 degrees, 3 degrees and 15 mm, 2 degrees, 1.5 degrees; from memory). Time 0 is the first time.
 */
export function standsAgain(seed: number, time: number): MarkerPositions {
  const person = describeOrdinaryPerson(seed);
  return placeByHand(
    standingPerson(time === 0 ? person : otherStance(person, seed, time)),
    seededRandom(seed + 500_000),
  );
}

function otherStance(person: PersonDescription, seed: number, time: number): PersonDescription {
  const random = seededRandom(seed * 1000 + time);
  const leg = (side: PersonDescription['right']): PersonDescription['right'] => ({
    ...side,
    kneeFlexionDeg: Math.max(0, side.kneeFlexionDeg + random.bell(3)),
    footProgressionDeg: side.footProgressionDeg + random.bell(3),
    footForwardMm: side.footForwardMm + random.bell(15),
  });
  return {
    ...person,
    trunkLeanDeg: person.trunkLeanDeg + random.bell(1.5),
    pelvicSlopeDeg: person.pelvicSlopeDeg + random.bell(2),
    right: leg(person.right),
    left: leg(person.left),
  };
}
