import type { MarkerSet } from '../marker-set/marker-set.ts';
import { fixed } from '../report/rounding.ts';
import { type Direction, directions, type RepeatedPlacement } from './repeat-placing.ts';
import { sdInterval } from './sd-interval.ts';
import { landmarkWords } from './session-summary.ts';

/** Repeated placings as they are told, in a terminal and on a page. */
export interface ToldRepeat {
  readonly placings: number;
  readonly doubts: readonly string[];
  readonly landmarks: readonly SpreadRow[];
  readonly markers: readonly FurthestRow[];
  readonly limits: readonly string[];
}

export interface SpreadRow {
  readonly called: string;
  /** Forward, up, outward; mm. */
  readonly measured: readonly string[];
  /** What the marker set reckons with. */
  readonly stated: readonly string[];
}

export interface FurthestRow {
  readonly marker: string;
  readonly furthest: readonly string[];
  readonly isBeyondHand: boolean;
}

export function tellRepeat(repeated: RepeatedPlacement, doubts: readonly string[], set: MarkerSet): ToldRepeat {
  const { placings, landmarks, markers, against } = repeated;
  return {
    placings,
    doubts,
    landmarks: landmarks.map(({ landmark, forwardMm, upMm, outwardMm }) => ({
      called: landmarkWords(set, landmark),
      measured: [forwardMm, upMm, outwardMm].map((mm) => fixed(1, mm)),
      stated: statedOf(set, landmark),
    })),
    markers: markers.map(({ marker }) => {
      const own = against.map((one) => one.find((other) => other.marker === marker)!);
      const furthest = (along: Direction): number =>
        own.map(({ mm }) => mm[along]).sort((a, b) => Math.abs(b) - Math.abs(a))[0]!;
      return {
        marker,
        furthest: directions.map((along) => fixed(1, furthest(along))),
        isBeyondHand: own.some(({ beyondHand }) => beyondHand),
      };
    }),
    limits: repeatLimits(repeated),
  };
}

function statedOf(set: MarkerSet, landmark: string): string[] {
  const { scatterMm } = set.markers.find(({ stem }) => stem === landmark)!;
  return directions.map((along) => fixed(1, scatterMm[along]));
}

/** How little so few placings say, and what the comparison cannot tell. */
export function repeatLimits({ placings, landmarks }: RepeatedPlacement): string[] {
  const degrees = Math.max(1, ...landmarks.map((one) => one.degrees));
  const [low, high] = sdInterval(degrees);
  const [lowAlone, highAlone] = sdInterval(placings - 1);
  const pooled =
    degrees === placings - 1
      ? ''
      : `, of both sides together ${fixed(1, low)} to ${fixed(1, high)} times (as if the sides were independent)`;
  return [
    `From ${placings} placings: the true spread of one marker may be ${fixed(1, lowAlone)} to ${fixed(1, highAlone)} times what is shown${pooled}; 95 %, by chi-square. It is this subject's alone.`,
    'A constant error shows in no spread: a landmark that is taken too low every time is placed alike every time. Where every marker was placed anew nothing holds still, and what one marker is off is shared by its neighbours on the segment.',
    '"Stated" is the hand that the marker set reckons with. "More than the hand" is beyond what two careful placings of such a marker seldom differ by.',
  ];
}
