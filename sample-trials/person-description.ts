import type { Sex } from './body-proportions.ts';
import type { SeededRandom } from './seeded-random.ts';

/** What makes one leg of the person; angles in degrees, outward and flexion positive. */
export interface LegDescription {
  /** Knee axis (medial to lateral epicondyle) against the pelvis's left-right axis, seen from above. */
  readonly kneeTurnDeg: number;
  /** Malleolar axis against the knee axis, about the shank. */
  readonly tibialTorsionDeg: number;
  /** Heel to second metatarsal head against straight ahead, seen from above. */
  readonly footProgressionDeg: number;
  readonly kneeFlexionDeg: number;
  /** Added to what the proportions give: the small differences between right and left. */
  readonly thighExtraMm: number;
  readonly shankExtraMm: number;
  readonly malleolusHeightExtraMm: number;
  /** This foot in front of the middle of the two. */
  readonly footForwardMm: number;
  /** Roll of the foot onto its outer edge; 0 for an ordinary foot. */
  readonly footSupinationDeg: number;
}

export interface PersonDescription {
  readonly statureMm: number;
  readonly sex: Sex;
  readonly ageYears: number;
  readonly right: LegDescription;
  readonly left: LegDescription;
  /** Mid-ASIS below the sacral marker: slope of the line that joins them against the floor. */
  readonly pelvicSlopeDeg: number;
  /** Middle of the hips to middle of the shoulders against the vertical, forward positive. */
  readonly trunkLeanDeg: number;
  /** Hips in front of the ankles. */
  readonly hipForwardMm: number;
  /** The sacral marker's site to the left of the middle between the PSIS. */
  readonly sacralLeftMm: number;
  readonly markerRadiusMm: number;
}

/** Everything about a person that may be fixed by hand; the rest is drawn. */
export type GivenTraits = Pick<PersonDescription, 'statureMm' | 'sex' | 'ageYears'> &
  Partial<Omit<PersonDescription, 'right' | 'left'>> & {
    readonly right?: Partial<LegDescription>;
    readonly left?: Partial<LegDescription>;
  };

const DRAWN_WITHIN_SD = 1.5;

/**
 * Completes a person: what `given` leaves open is drawn around published or measured means, never further than 1.5 SD.
 * Means of knee turn (2.5, SD 8.9), foot turn-out (11) and pelvic slope (12.8, SD 9) are those of 62 openly published
 * standing trials; leg differences are sized so that right and left differ by about 5 mm (Knutson 2005: mean 5.2 mm);
 * torsion 28.5 degrees after a CT series (PMC7875943); hips in front of the ankles after Woodhull 1985 (62, SD 13 mm).
 */
export function describePerson(given: GivenTraits, random: SeededRandom): PersonDescription {
  const around = (mean: number, sd: number): number => mean + random.bell(sd, DRAWN_WITHIN_SD);
  const leg = (fixed: Partial<LegDescription> = {}): LegDescription => {
    const drawn: LegDescription = {
      kneeTurnDeg: around(2.5, 8.9),
      tibialTorsionDeg: around(28, 5),
      footProgressionDeg: around(11, 5),
      kneeFlexionDeg: around(3, 1.5),
      thighExtraMm: around(0, 3),
      shankExtraMm: around(0, 3),
      malleolusHeightExtraMm: around(0, 2),
      footForwardMm: around(0, 5),
      footSupinationDeg: 0,
    };
    return { ...drawn, ...fixed };
  };
  const right = leg(given.right);
  const left = leg(given.left);
  return {
    pelvicSlopeDeg: around(12.8, 9),
    trunkLeanDeg: around(-2.5, 1),
    hipForwardMm: around(0.033 * given.statureMm, 0.005 * given.statureMm),
    sacralLeftMm: around(0, 1.5),
    markerRadiusMm: 7,
    ...given,
    right,
    left,
  };
}

/** The same person seen in a mirror: right and left exchanged. */
export function mirrorPerson(person: PersonDescription): PersonDescription {
  return { ...person, right: person.left, left: person.right, sacralLeftMm: -person.sacralLeftMm };
}
