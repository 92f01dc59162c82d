import type { Measure } from '../marker-set/measure.ts';
import { type AgedAndSexed, medianStatureMm } from './stature-by-age.ts';

/** What is known of the person when a size is judged. */
export interface Person extends AgedAndSexed {
  /** Null where the age is not recorded. */
  readonly isAdult: boolean | null;
  /** Measured, or estimated from leg length or age; null where nothing tells. */
  readonly statureMm: number | null;
  /** Mean of both legs as measured; null where neither was. */
  readonly legMm: number | null;
}

/** What a measurement may be: outside it is implausible. In mm, for the mass in kg. */
export interface Band {
  /** The usual value; null where nothing tells. */
  readonly expected: number | null;
  readonly low: number;
  readonly high: number;
  readonly source: string;
}

export const noPublishedBand = 'no published band in our sources';
const ansur = 'ANSUR II 2012 (Gordon et al. 2014, NATICK/TR-15/007; fit soldiers)';
/** ASIS to inner ankle bone as a share of stature; both from memory. */
export const legPerStature = { adult: 0.515, child: 0.495 } as const;

/** The band of a measurement for this person. Statures and legs are judged by files of their own. */
export function expectedSize(measure: Measure, person: Person): Band {
  const { statureMm: stature } = person;
  if (measure === 'stature') return statureBand(person);
  if (measure === 'mass') return massBand(person);
  if (measure === 'asisTrochanterDepth') return depthBand(person);
  if (stature === null) return { expected: null, ...absolute[measure], source: `wide band; ${noPublishedBand}` };
  switch (measure) {
    case 'pelvisWidth':
      return {
        expected: 0.14 * stature,
        low: 0.1 * stature,
        high: 0.19 * stature,
        source: `.10 to .19 of stature: ${noPublishedBand}; about 220 to 260 mm in adults and 150 to 190 mm at five to ten years, from memory`,
      };
    case 'asisPsisDepth':
      return {
        expected: 0.088 * stature,
        low: 0.06 * stature,
        high: 0.13 * stature,
        source: `.06 to .13 of stature: ${noPublishedBand}`,
      };
    case 'kneeDiameter': {
      const expected = 18.4 + 0.0473 * stature;
      return {
        expected,
        low: 0.7 * expected,
        high: 1.3 * expected,
        source: `30 % about a line through 70 mm at five years, 85 at ten, 93 and 101 in women and men, from memory: ${noPublishedBand}`,
      };
    }
    case 'ankleDiameter':
      return ankleBand(person, stature);
    case 'legLength':
      return { ...legBand(person, stature) };
  }
}

/** Where not even a stature is known. */
const absolute = {
  pelvisWidth: { low: 100, high: 350 },
  asisPsisDepth: { low: 70, high: 230 },
  kneeDiameter: { low: 45, high: 150 },
  ankleDiameter: { low: 30, high: 100 },
  legLength: { low: 300, high: 1150 },
} as const;

const ansurStature = { male: { mean: 1756.2, sd: 68.6 }, female: { mean: 1628.5, sd: 64.2 } } as const;
const statureSpread = 4;

function statureBand({ isAdult, sex, ageYears }: Person): Band {
  const median = isAdult === true ? null : medianStatureMm({ ageYears, sex });
  if (median !== null) {
    return {
      expected: median,
      low: 0.8 * median,
      high: 1.2 * median,
      source: 'median of the CDC 2000 charts (from memory, to 1 cm), 20 % about it',
    };
  }
  if (isAdult !== true) return { expected: null, low: 450, high: 2100, source: `wide band; ${noPublishedBand}` };
  const women = ansurStature.female;
  const men = ansurStature.male;
  const low = sex === 'male' ? men : women;
  const high = sex === 'female' ? women : men;
  return {
    expected: (low.mean + high.mean) / 2,
    low: low.mean - statureSpread * low.sd,
    high: high.mean + statureSpread * high.sd,
    source: `four standard deviations about the mean of ${ansur}`,
  };
}

function massBand({ isAdult, statureMm }: Person): Band {
  if (statureMm === null) return { expected: null, low: 5, high: 200, source: `wide band; ${noPublishedBand}` };
  const squareMetres = (statureMm / 1000) ** 2;
  const [low, usual, high] = isAdult === false ? [10, 16.5, 38] : [12, 24, 50];
  return {
    expected: usual * squareMetres,
    low: low * squareMetres,
    high: high * squareMetres,
    source: `body mass index of ${low} to ${high} kg/m2: ${noPublishedBand}`,
  };
}

function depthBand({ legMm, statureMm, isAdult }: Person): Band {
  const leg = legMm ?? (statureMm === null ? null : statureMm * legPerStature[isAdult === false ? 'child' : 'adult']);
  if (leg === null) return { expected: null, low: 15, high: 130, source: `wide band; ${noPublishedBand}` };
  const expected = 0.1288 * leg - 48.56;
  return {
    expected,
    low: Math.max(15, expected - 30),
    high: expected + 45,
    source: `about .1288 of leg length less 48.6 mm (the rounded default of the conventional model, from memory), 30 mm less to 45 mm more: ${noPublishedBand}`,
  };
}

function ankleBand({ sex, isAdult }: Person, stature: number): Band {
  if (isAdult === false) {
    const expected = 0.0435 * stature;
    return {
      expected,
      low: 0.75 * expected,
      high: 1.25 * expected,
      source: `.0435 of stature, 25 % about it: ${noPublishedBand} for children; 48 to 52 mm at five years, 58 to 63 at ten, from memory`,
    };
  }
  const share = sex === 'male' ? 0.0426 : sex === 'female' ? 0.0412 : 0.0419;
  const error = sex === 'female' ? 2.9 : 3.6;
  const expected = share * stature;
  return {
    expected,
    low: expected - 5 * error,
    high: expected + 5 * error,
    source: `bimalleolar breadth against stature, five standard errors about it: ${ansur}`,
  };
}

/**
 * The ASIS lies between the trochanter and the iliac crest, so that a leg is longer than trochanterion height and shorter
 * than iliocristale height, both less the height of the malleolus: first and 99th percentile of ANSUR II over both sexes.
 */
function legBand({ isAdult }: Person, stature: number): Band {
  if (isAdult === false) {
    return {
      expected: legPerStature.child * stature,
      low: 0.4 * stature,
      high: 0.58 * stature,
      source: `.40 to .58 of stature: ${noPublishedBand} for children`,
    };
  }
  return {
    expected: legPerStature.adult * stature,
    low: 0.441 * stature,
    high: 0.595 * stature,
    source: `between the heights of trochanter and iliac crest less that of the malleolus, first and last percentile of ${ansur}`,
  };
}
