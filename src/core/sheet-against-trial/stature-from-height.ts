import type { Person } from '../measurements/expected-size.ts';
import type { ComparisonKindReader } from './comparison-kind.ts';

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
  const marker = body.geometry.lookup.point(markers[0]!);
  const { atZeroMm, perStature } = lineFor(height!, person.sex);
  return (positions) => (positions[marker + 2]! - atZeroMm) / perStature - tissueMm;
};

/** Where the sex is not recorded, the mean of both. */
function lineFor(height: 'cervicale' | 'trochanterion', sex: Person['sex']): Line {
  const { male, female } = heights[height];
  if (sex !== null) return heights[height][sex];
  return { atZeroMm: (male.atZeroMm + female.atZeroMm) / 2, perStature: (male.perStature + female.perStature) / 2 };
}
