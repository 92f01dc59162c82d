import type { StandingBody } from '../pose/standing-body.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import type { SheetComparison } from '../sheet-against-trial/sheet-comparison.ts';
import { type BodyModel, modelBody } from './body-model.ts';
import { deviationAtPose } from './deviation-at-pose.ts';
import { displacementOf } from './evidence.ts';
import { type ExchangeExplanation, weighExchanges } from './exchanges.ts';
import { columnMarkersOf, columnsOf, type Explanation, probabilitiesOf, screenExplanations } from './explanations.ts';
import { normalAbove } from './normal-above.ts';
import type { Norms } from './norms.ts';
import { type RefinedExplanation, refineExplanation } from './refine-explanation.ts';
import type { SensitivityColumn } from './sensitivity.ts';
import { rulesWithNorms } from './well-marked.ts';

/** What one explanation says: these markers (and readings of the sheet, by their index), by so much each (body axes, mm; how far they stand off their place). */
export interface WeighedExplanation {
  readonly kind: 'well-marked' | 'displaced' | 'unusual-body';
  readonly markers: readonly string[];
  readonly readings: readonly number[];
  readonly probability: number;
  readonly offMm: readonly { readonly marker: string; readonly vector: readonly [number, number, number] }[];
  readonly converged: boolean;
}

export interface WeighedMarkers {
  /** Best first, at most five. */
  readonly explanations: readonly WeighedExplanation[];
  /** Two labels of which the most probable exchange remains; null where the body's order rules every one out. */
  readonly exchange: { readonly labels: readonly [string, string]; readonly probability: number } | null;
  /**
   * Probability that a marker stands off its place toward a direction (body axes), summed over all explanations.
   */
  probabilityToward(marker: string, direction: readonly [number, number, number]): number;
  /** Probability that a marker is off at all. */
  probability(marker: string): number;
  /** Probability that a reading of the compared sheet is wrong, by its index. */
  probabilityOfReading(reading: number): number;
  /** How far a marker stands off its place by the most probable explanation that has it off; null where none does. */
  off(marker: string): MarkerOff | null;
}

/** Body axes, mm. */
export interface MarkerOff {
  readonly vector: readonly [number, number, number];
  /** 1 SD along it. */
  readonly sdMm: number;
}

const refined = 5;
/** The way a marker is off is asked of explanations at least this probable. */
const telling = 1e-3;

/**
 * Weighs which markers are off, over all findings together: every explanation with up to three displaced markers in
 * closed form, the best five refined. Null where the norms know none of the rules or the figures cannot be weighed.
 *
 * @param trusted markers confirmed on the bone
 * @param sheet hand measurements compared with the markers, which are weighed with them
 */
export function weighMarkers(
  body: StandingBody,
  assessed: readonly AssessedRule[],
  norms: Norms,
  trusted: ReadonlySet<string>,
  sheet: SheetComparison | null = null,
): WeighedMarkers | null {
  const model = modelBody(body, rulesWithNorms(assessed, norms), norms, trusted, sheet);
  if (model === null) return null;
  const { whitened, columns, varianceMm2 } = model;
  const explanations = screenExplanations(whitened, model.ways, varianceMm2);
  const ranked = [...explanations.keys()].sort((a, b) => explanations[b]!.logOdds - explanations[a]!.logOdds);
  const deviationAt = deviationAtPose(model);
  const best = ranked
    .slice(0, refined)
    .map((index) => refineExplanation(whitened, explanations[index]!, varianceMm2, deviationAt));
  const all: Explanation[] = explanations.slice();
  ranked.slice(0, refined).forEach((index, place) => {
    all[index] = best[place]!;
  });
  const exchanges = weighExchanges(model, (exchanged) => modelBody(exchanged, model.rules, norms, trusted, sheet));
  const probabilities = probabilitiesOf([...all, ...exchanges]);

  const order = [...best.keys()].sort((a, b) => best[b]!.logOdds - best[a]!.logOdds);
  const indexOf = (label: string): number => body.set.markers.findIndex((marker) => marker.label === label);
  const byMarker = new Float64Array(body.set.markers.length + (sheet?.readings.length ?? 0));
  [...all, ...exchanges].forEach(({ ways }, index) => {
    for (const { marker } of ways) byMarker[marker]! += probabilities[index]!;
  });
  return {
    explanations: order.map((place) => sayExplanation(best[place]!, probabilities[ranked[place]!]!, body, columns)),
    exchange: likeliestExchange(exchanges, probabilities.subarray(all.length), body),
    probabilityOfReading: (reading) => Math.min(1, byMarker[body.set.markers.length + reading]!),
    probability: (label) => Math.min(1, byMarker[indexOf(label)]!),
    probabilityToward: (label, direction) => {
      const marker = indexOf(label);
      let toward = 0;
      let seen = 0;
      for (const [index, explanation] of all.entries()) {
        const probability = probabilities[index]!;
        if (probability < telling || !explanation.ways.some((way) => way.marker === marker)) continue;
        seen += probability;
        toward += probability * shareToward(explanation, marker, direction, model);
      }
      // What is left over is spread over hundreds of explanations that hardly move it, and over exchanged labels: either
      // way alike.
      return Math.min(1, toward + (byMarker[marker]! - seen) / 2);
    },
    off: (label) => {
      const marker = indexOf(label);
      let likeliest = -1;
      all.forEach(({ ways }, index) => {
        const has = ways.some((way) => way.marker === marker);
        if (has && (likeliest < 0 || probabilities[index]! > probabilities[likeliest]!)) likeliest = index;
      });
      return likeliest < 0 ? null : offIn(all[likeliest]!, marker, model);
    },
  };
}

/** Displacement of one marker in an explanation: refined where that was done, else from the closed form. */
function offIn(explanation: Explanation | RefinedExplanation, marker: number, model: BodyModel): MarkerOff | null {
  const { whitened, columns, varianceMm2 } = model;
  const displaced = columnsOf(explanation);
  const owner = columnMarkersOf(explanation);
  const { mean, covariance } =
    'displacementMm' in explanation
      ? { mean: explanation.displacementMm, covariance: explanation.covariance }
      : displacementOf(whitened, displaced, varianceMm2);
  const vector: [number, number, number] = [0, 0, 0];
  displaced.forEach((column, i) => {
    if (owner[i] !== marker) return;
    const along = columns[column]!.shifts[0]!.vector;
    for (let axis = 0; axis < 3; axis++) vector[axis]! += mean[i]! * along[axis]!;
  });
  const size = Math.hypot(...vector);
  if (!(size > 0)) return null;
  const weights = displaced.map((column, i) => {
    if (owner[i] !== marker) return 0;
    const along = columns[column]!.shifts[0]!.vector;
    return (along[0] * vector[0] + along[1] * vector[1] + along[2] * vector[2]) / size;
  });
  let variance = 0;
  weights.forEach((a, i) => {
    weights.forEach((b, j) => {
      variance += a * b * covariance[i * weights.length + j]!;
    });
  });
  return { vector, sdMm: Math.sqrt(Math.max(0, variance)) };
}

/** Probability that an explanation puts a marker off toward a direction, from its normal displacement. */
function shareToward(
  explanation: Explanation,
  marker: number,
  direction: readonly [number, number, number],
  { whitened, columns, varianceMm2 }: BodyModel,
): number {
  const displaced = columnsOf(explanation);
  const owner = columnMarkersOf(explanation);
  const { mean, covariance } = displacementOf(whitened, displaced, varianceMm2);
  const weights = displaced.map((column, i) => {
    if (owner[i] !== marker) return 0;
    const { vector } = columns[column]!.shifts[0]!;
    return vector[0] * direction[0] + vector[1] * direction[1] + vector[2] * direction[2];
  });
  return normalAbove(weights, mean, covariance);
}

function likeliestExchange(
  exchanges: readonly ExchangeExplanation[],
  probabilities: Float64Array,
  { set }: StandingBody,
): WeighedMarkers['exchange'] {
  const byPair = new Map<string, { labels: readonly [string, string]; probability: number }>();
  exchanges.forEach(({ pair }, index) => {
    const labels: [string, string] = [set.markers[pair[0]]!.label, set.markers[pair[1]]!.label];
    const held = byPair.get(labels.join())?.probability ?? 0;
    byPair.set(labels.join(), { labels, probability: Math.min(1, held + probabilities[index]!) });
  });
  return [...byPair.values()].sort((a, b) => b.probability - a.probability)[0] ?? null;
}

function sayExplanation(
  explanation: RefinedExplanation,
  probability: number,
  body: StandingBody,
  columns: readonly SensitivityColumn[],
): WeighedExplanation {
  const displaced = columnsOf(explanation);
  const owner = columnMarkersOf(explanation);
  const ofMarkers = explanation.ways.filter(({ isReading }) => !isReading);
  const markers = ofMarkers.map(({ marker }) => body.set.markers[marker]!.label);
  const offMm = ofMarkers.map(({ marker }, at) => {
    const vector: [number, number, number] = [0, 0, 0];
    displaced.forEach((column, i) => {
      if (owner[i] !== marker) return;
      const along = columns[column]!.shifts[0]!.vector;
      for (let axis = 0; axis < 3; axis++) vector[axis]! += explanation.displacementMm[i]! * along[axis]!;
    });
    return { marker: markers[at]!, vector };
  });
  return {
    kind: explanation.kind,
    markers,
    readings: explanation.ways.flatMap(({ isReading, marker }) =>
      isReading ? [marker - body.set.markers.length] : [],
    ),
    probability,
    offMm,
    converged: explanation.converged,
  };
}
