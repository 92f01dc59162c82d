import type { Vec3 } from '../geometry/vector.ts';

export type LandmarkSide = 'right' | 'left' | 'midline';
/** Parts of the body that move against each other in standing, so that each is brought into line by itself. */
export type BodyPart = 'trunk' | 'pelvis' | 'knee' | 'foot';

/** Where a landmark lies on an average adult of 1.70 m who stands, and how people and protocols differ there. */
export interface LandmarkPlace {
  /** Label as marker sets use it, without the side; null for a landmark that the shipped sets have no marker for. */
  readonly stem: string | null;
  readonly called: string;
  readonly side: LandmarkSide;
  readonly part: BodyPart;
  /** Forward, left, up; mm; the origin lies on the floor below the middle of the ASIS. */
  readonly mm: Vec3;
  /** 1 SD in each direction, mm: people, protocols and where on the skin a cluster sits. From memory. */
  readonly sdMm: Vec3;
}

type Written = readonly [stem: string | null, called: string, part: BodyPart, mm: Vec3, sdMm: Vec3];

/** Outward in the second place; written once for both sides. Means as on the reference adult, but for markers on the skin. */
const sided: readonly Written[] = [
  ['ACR', 'acromion', 'trunk', [-90, 181, 1398], [40, 25, 35]],
  ['ASIS', 'anterior superior iliac spine', 'pelvis', [0, 125, 953], [20, 22, 25]],
  ['PSIS', 'posterior superior iliac spine', 'pelvis', [-158, 48, 989], [25, 14, 25]],
  ['GT', 'greater trochanter', 'pelvis', [-77, 188, 880], [25, 20, 25]],
  ['TW', 'side or front of the thigh', 'knee', [-55, 195, 670], [55, 45, 90]],
  ['LE', 'lateral femoral epicondyle', 'knee', [-86, 145, 484], [20, 18, 20]],
  ['ME', 'medial femoral epicondyle', 'knee', [-81, 34, 484], [20, 18, 20]],
  ['HF', 'head of the fibula', 'knee', [-102, 141, 457], [18, 18, 15]],
  [null, 'tibial tuberosity', 'knee', [-45, 90, 425], [20, 20, 25]],
  ['SW', 'side or front of the shank', 'knee', [-110, 150, 265], [50, 45, 85]],
  ['LM', 'lateral malleolus', 'foot', [-145, 124, 67], [15, 15, 10]],
  ['MM', 'medial malleolus', 'foot', [-101, 53, 75], [15, 15, 10]],
  ['HEEL', 'back of the heel', 'foot', [-185, 76, 35], [15, 15, 15]],
  ['MET5', 'head of the fifth metatarsal', 'foot', [-31, 166, 31], [20, 15, 10]],
  ['MET2', 'head of the second metatarsal', 'foot', [3, 113, 44], [20, 15, 12]],
];
const midline: readonly Written[] = [
  ['C7', 'seventh cervical vertebra', 'trunk', [-155, 0, 1451], [35, 15, 35]],
  ['S1', 'sacrum, between the posterior superior iliac spines', 'pelvis', [-158, 0, 989], [25, 10, 28]],
];

/** Every landmark, right, left and midline. */
export const landmarkPlaces: readonly LandmarkPlace[] = [
  ...(['right', 'left'] as const).flatMap((side) =>
    sided.map(([stem, called, part, [forward, outward, up], sdMm]): LandmarkPlace => {
      const left = side === 'left' ? outward : -outward;
      return { stem, called, side, part, mm: [forward, left, up], sdMm };
    }),
  ),
  ...midline.map(
    ([stem, called, part, mm, sdMm]): LandmarkPlace => ({ stem, called, side: 'midline', part, mm, sdMm }),
  ),
];
