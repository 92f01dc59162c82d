import type { MarkerSet } from '../marker-set/marker-set.ts';
import { fixed } from '../report/rounding.ts';
import type { RepeatedPlacement } from './repeat-placing.ts';
import { sdInterval } from './sd-interval.ts';
import { landmarkWords } from './session-summary.ts';
import { type Direction, directions } from './shown-spread.ts';

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
  /** What the hand that the marker set states would show in the same comparison. */
  readonly usual: readonly string[];
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
    landmarks: landmarks.map(({ landmark, forwardMm, upMm, outwardMm, usualMm }) => ({
      called: landmarkWords(set, landmark),
      measured: [forwardMm, upMm, outwardMm].map((mm) => fixed(1, mm)),
      usual: directions.map((along) => fixed(1, usualMm[along])),
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
    `From ${placings} placings, chance alone leaves the spread of one marker anywhere from ${fixed(1, lowAlone)} to ${fixed(1, highAlone)} times what is shown${pooled}; 95 %, by chi-square. It is this subject's alone.`,
    'The spread reads low: every marker was placed anew, so that nothing holds still, and a segment that is laid onto itself takes up a part. "Usual" has the same done to simulated placings of this subject by the hand that the marker set states: compare with that. A dash: the marker does not slide that way, or less than half of a spread would show.',
    'A constant error shows in no spread: a landmark that is taken too low every time is placed alike every time.',
    '"More than the hand" is beyond what two careful placings of such a marker seldom differ by.',
  ];
}
