import { type PlacementDifference, placementDifferences } from '../compare/placement-differences.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { landmarkOfMarker } from './answer-trial.ts';
import type { RepeatSpread } from './history.ts';
import { type Direction, type ShownSpread, spreadOfStatedHand } from './shown-spread.ts';

/** How a marker came to sit, time after time. */
export interface RepeatedMarker {
  readonly marker: string;
  /** Spread of one placing, 1 SD (n - 1); mm. */
  readonly sdMm: Readonly<Record<Direction, number>>;
  /** What the hand that the marker set states would show here. */
  readonly usualMm: ShownSpread;
}

export interface RepeatedPlacement {
  readonly placings: number;
  /** Each later placing against the first one, as `compare` tells it. */
  readonly against: readonly (readonly PlacementDifference[])[];
  /** Markers that are in all of them. */
  readonly markers: readonly RepeatedMarker[];
  readonly landmarks: readonly (RepeatSpread & {
    readonly landmark: string;
    /** What the hand that the marker set states would show here. */
    readonly usualMm: ShownSpread;
    /** Degrees of freedom that the spread rests on: both sides of n placings. */
    readonly degrees: number;
  })[];
}

/**
 * One subject who was marked anew several times, against the first time: what one placing spreads by. Posture does not
 * count, for each marker is told on its own segment (`placementDifferences`).
 * @param bodies in the order in which they were marked; at least two
 */
export function repeatedPlacement([first, ...later]: readonly StandingBody[]): RepeatedPlacement {
  const against = later.map((body) => placementDifferences(first!, body));
  const { set } = first!;
  const stated = spreadOfStatedHand(first!);
  const labels = (against[0] ?? []).map(({ marker }) => marker);
  const everywhere = labels.filter((label) => against.every((one) => one.some(({ marker }) => marker === label)));
  const markers = everywhere.map((label): RepeatedMarker => {
    const steps = against.map((one) => one.find(({ marker }) => marker === label)!.mm);
    const sdOf = (along: Direction): number => spreadOf([0, ...steps.map((mm) => mm[along])]);
    return {
      marker: label,
      sdMm: { forward: sdOf('forward'), up: sdOf('up'), outward: sdOf('outward') },
      usualMm: stated.get(label) ?? { forward: null, up: null, outward: null },
    };
  });
  return { placings: later.length + 1, against, markers, landmarks: byLandmark(markers, set, later.length) };
}

/** Standard deviation with n - 1. */
function spreadOf(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
}

/** Both sides of a landmark: the root of their mean variance. */
function byLandmark(
  markers: readonly RepeatedMarker[],
  set: MarkerSet,
  degreesEach: number,
): RepeatedPlacement['landmarks'] {
  const stems = [...new Set(markers.map(({ marker }) => landmarkOfMarker(set, marker)))];
  return stems.map((landmark) => {
    const own = markers.filter(({ marker }) => landmarkOfMarker(set, marker) === landmark);
    const isTold = (along: Direction): boolean => own.every(({ usualMm }) => usualMm[along] !== null);
    const rootMean = (along: Direction, of: (one: RepeatedMarker) => number): number | null =>
      isTold(along) ? Math.sqrt(own.reduce((sum, one) => sum + of(one) ** 2, 0) / own.length) : null;
    const pooled = (along: Direction) => rootMean(along, ({ sdMm }) => sdMm[along]);
    const usual = (along: Direction) => rootMean(along, ({ usualMm }) => usualMm[along]!);
    return {
      landmark,
      forwardMm: pooled('forward'),
      upMm: pooled('up'),
      outwardMm: pooled('outward'),
      usualMm: { forward: usual('forward'), up: usual('up'), outward: usual('outward') },
      degrees: own.length * degreesEach,
    };
  });
}
