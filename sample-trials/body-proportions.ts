export type Sex = 'male' | 'female';

/** Sizes of one body in millimetres, standing straight and barefoot; heights above the floor. */
export interface BodySizes {
  readonly c7HeightMm: number;
  readonly acromialHeightMm: number;
  readonly trochanterHeightMm: number;
  readonly epicondyleHeightMm: number;
  readonly lateralMalleolusHeightMm: number;
  readonly biacromialMm: number;
  readonly hipBreadthMm: number;
  readonly kneeWidthMm: number;
  readonly ankleWidthMm: number;
  readonly footLengthMm: number;
  readonly footBreadthMm: number;
  readonly asisDistanceMm: number;
  readonly pelvicDepthMm: number;
}

type Ratios = { readonly [size in keyof BodySizes]: number };

/**
 * Means as a share of stature. Heights, breadths and foot: ANSUR II 2012 (Gordon et al. 2014, NATICK/TR-15/007), computed
 * from the public data. Knee width about 101 and 93 mm, distance between the ASIS about 240 mm and pelvic depth (mid-ASIS
 * to mid-PSIS, markers) about 160 mm at mean stature: from memory, the survey has none of them.
 */
const MEN: Ratios = {
  c7HeightMm: 0.864,
  acromialHeightMm: 0.82,
  trochanterHeightMm: 0.513,
  epicondyleHeightMm: 0.28,
  lateralMalleolusHeightMm: 0.0415,
  biacromialMm: 0.237,
  hipBreadthMm: 0.1969,
  kneeWidthMm: 0.0575,
  ankleWidthMm: 0.0426,
  footLengthMm: 0.154,
  footBreadthMm: 0.058,
  asisDistanceMm: 0.137,
  pelvicDepthMm: 0.0925,
};

const WOMEN: Ratios = {
  c7HeightMm: 0.857,
  acromialHeightMm: 0.82,
  trochanterHeightMm: 0.519,
  epicondyleHeightMm: 0.286,
  lateralMalleolusHeightMm: 0.0385,
  biacromialMm: 0.224,
  hipBreadthMm: 0.2173,
  kneeWidthMm: 0.0571,
  ankleWidthMm: 0.0412,
  footLengthMm: 0.151,
  footBreadthMm: 0.0569,
  asisDistanceMm: 0.147,
  pelvicDepthMm: 0.0955,
};

/**
 * A child of about seven, rough. The leg is set so that the ASIS stands at .98 of the sitting height, as in the Brush
 * Foundation children (290 children, 3,326 visits); the rest is from memory: larger head, so lower C7 and shoulders,
 * and thicker joints for the length (knee about 75, ankle about 55 mm).
 */
const CHILDREN_OF_SEVEN: Ratios = {
  c7HeightMm: 0.835,
  acromialHeightMm: 0.792,
  trochanterHeightMm: 0.497,
  epicondyleHeightMm: 0.272,
  lateralMalleolusHeightMm: 0.042,
  biacromialMm: 0.222,
  hipBreadthMm: 0.19,
  kneeWidthMm: 0.0605,
  ankleWidthMm: 0.045,
  footLengthMm: 0.156,
  footBreadthMm: 0.06,
  asisDistanceMm: 0.141,
  pelvicDepthMm: 0.095,
};

const ADULT_FROM_YEARS = 16;
const CHILD_RATIOS_AT_YEARS = 7;

/** Mean sizes for a stature; below 16 years blended in a straight line towards the seven-year-old's proportions. */
export function bodySizes(statureMm: number, sex: Sex, ageYears: number): BodySizes {
  const adult = sex === 'male' ? MEN : WOMEN;
  const childShare = Math.min(
    1.2,
    Math.max(0, (ADULT_FROM_YEARS - ageYears) / (ADULT_FROM_YEARS - CHILD_RATIOS_AT_YEARS)),
  );
  const size = (name: keyof BodySizes): number =>
    statureMm * (adult[name] + childShare * (CHILDREN_OF_SEVEN[name] - adult[name]));
  return {
    c7HeightMm: size('c7HeightMm'),
    acromialHeightMm: size('acromialHeightMm'),
    trochanterHeightMm: size('trochanterHeightMm'),
    epicondyleHeightMm: size('epicondyleHeightMm'),
    lateralMalleolusHeightMm: size('lateralMalleolusHeightMm'),
    biacromialMm: size('biacromialMm'),
    hipBreadthMm: size('hipBreadthMm'),
    kneeWidthMm: size('kneeWidthMm'),
    ankleWidthMm: size('ankleWidthMm'),
    footLengthMm: size('footLengthMm'),
    footBreadthMm: size('footBreadthMm'),
    asisDistanceMm: size('asisDistanceMm'),
    pelvicDepthMm: size('pelvicDepthMm'),
  };
}
