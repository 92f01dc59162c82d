import type { Person } from '../measurements/expected-size.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { at } from '../rule-kinds/positions.ts';
import type { ComparisonKindReader } from './comparison-kind.ts';

/** From memory: foot markers on feet of different people, and a floor that is level. */
const zeroWithinMm = 25;

interface Line {
  readonly atZeroMm: number;
  readonly perStature: number;
}

/** Heights above the floor against stature in adults, mm: ANSUR II 2012 (Gordon et al. 2014, NATICK/TR-15/007). */
const heights: Readonly<Record<'cervicale' | 'trochanterion', Readonly<Record<'male' | 'female', Line>>>> = {
  cervicale: {
    male: { atZeroMm: -78.1, perStature: 0.9084 },
    female: { atZeroMm: -90.4, perStature: 0.9126 },
  },
  trochanterion: {
    male: { atZeroMm: -169.9, perStature: 0.6098 },
    female: { atZeroMm: -126.9, perStature: 0.597 },
  },
};

/** The stature that goes with the height of a marker: the published line turned round. Adults who stand straight only. */
export const statureFromHeight: ComparisonKindReader = ({ markers, height, tissueMm }, body, person) => {
  if (person.isAdult !== true) {
    return {
      reason:
        person.isAdult === null
          ? 'the age is not recorded, and the published proportions are those of adults'
          : 'the published proportions are those of adults',
    };
  }
  if (!standsOnZero(body))
    return { reason: "the lowest marker is not where it is when the floor is the laboratory's zero" };
  const marker = body.geometry.lookup.point(markers[0]!);
  const { atZeroMm, perStature } = lineFor(height!, person.sex);
  return (positions) => (positions[marker + 2]! - atZeroMm) / perStature - tissueMm;
};

/**
 * Many laboratories have their zero a few centimetres off the floor, and heights are off by that much. A lowest marker at
 * another height than on a bare foot says so; so it does in shoes and on a block, where stature cannot be compared either.
 */
function standsOnZero({ set, geometry, positions }: StandingBody): boolean {
  const heights = set.markers.flatMap(({ label }, index) => (geometry.has(label) ? at(positions, index * 3)[2] : []));
  return Math.abs(Math.min(...heights) - set.bodyAxes.floorBelowLowestMm) <= zeroWithinMm;
}

/** Where the sex is not recorded, the mean of both. */
function lineFor(height: 'cervicale' | 'trochanterion', sex: Person['sex']): Line {
  const { male, female } = heights[height];
  if (sex !== null) return heights[height][sex];
  return { atZeroMm: (male.atZeroMm + female.atZeroMm) / 2, perStature: (male.perStature + female.perStature) / 2 };
}
