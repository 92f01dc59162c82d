import { bodyHeightMm } from '../pose/body-height.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import { displacementOf, type WhitenedModel, whiten } from './evidence.ts';
import {
  columnMarkersOf,
  columnsOf,
  type Explanation,
  type MarkerWay,
  probabilitiesOf,
  screenExplanations,
} from './explanations.ts';
import type { Norms } from './norms.ts';
import { type RefinedExplanation, refineExplanation } from './refine-explanation.ts';
import { measureSensitivity, type SensitivityColumn } from './sensitivity.ts';
import { expectWellMarked, rulesWithNorms } from './well-marked.ts';

/** What one explanation says: these markers, by so much each (body axes, mm; how far they stand off their place). */
export interface WeighedExplanation {
  readonly kind: 'well-marked' | 'displaced' | 'unusual-body';
  readonly markers: readonly string[];
  readonly probability: number;
  readonly offMm: readonly { readonly marker: string; readonly vector: readonly [number, number, number] }[];
  readonly converged: boolean;
}

export interface WeighedMarkers {
  /** Best first, at most five. */
  readonly explanations: readonly WeighedExplanation[];
  /**
   * Probability that a marker stands off its place toward a direction (body axes), summed over all explanations.
   */
  probabilityToward(marker: string, direction: readonly [number, number, number]): number;
  /** Probability that a marker is off at all. */
  probability(marker: string): number;
}

const refined = 5;
/** The way a marker is off is asked of explanations at least this probable. */
const telling = 1e-3;

/**
 * Weighs which markers are off, over all findings together: every explanation with up to three displaced markers in
 * closed form, the best five refined. Null where the norms know none of the rules or the figures cannot be weighed.
 *
 * @param trusted markers confirmed on the bone
 */
export function weighMarkers(
  body: StandingBody,
  assessed: readonly AssessedRule[],
  norms: Norms,
  trusted: ReadonlySet<string>,
): WeighedMarkers | null {
  const rules = rulesWithNorms(assessed, norms);
  if (rules.length === 0) return null;
  const sensitivity = measureSensitivity(body, rules);
  const expected = expectWellMarked(body, rules, norms, bodyHeightMm(body), sensitivity);
  const columns = [...sensitivity.alone, ...sensitivity.followed];
  const model = whiten(
    expected,
    columns.map(({ slopes }) => slopes),
  );
  if (model === null) return null;
  const variance = Float64Array.from(columns, ({ definition }) => definition.misplacement.sdMm ** 2);
  const explanations = screenExplanations(model, waysOf(columns, sensitivity.alone.length, trusted), variance);
  const ranked = [...explanations.keys()].sort((a, b) => explanations[b]!.logOdds - explanations[a]!.logOdds);

  const base = residualsOf(body, rules);
  const deviationAt = deviationAtPose(body, rules, columns, (i) => expected.deviation[i]! - base[i]!);
  const best = ranked
    .slice(0, refined)
    .map((index) => refineExplanation(model, explanations[index]!, variance, deviationAt));
  const all = explanations.slice();
  ranked.slice(0, refined).forEach((index, place) => {
    all[index] = best[place]!;
  });
  const probabilities = probabilitiesOf(all);

  const order = [...best.keys()].sort((a, b) => best[b]!.logOdds - best[a]!.logOdds);
  const indexOf = (label: string): number => body.set.markers.findIndex((marker) => marker.label === label);
  const byMarker = new Float64Array(body.set.markers.length);
  all.forEach(({ ways }, index) => {
    for (const { marker } of ways) byMarker[marker]! += probabilities[index]!;
  });
  return {
    explanations: order.map((place) => sayExplanation(best[place]!, probabilities[ranked[place]!]!, body, columns)),
    probability: (label) => Math.min(1, byMarker[indexOf(label)]!),
    probabilityToward: (label, direction) => {
      const marker = indexOf(label);
      let toward = 0;
      let seen = 0;
      for (const [index, explanation] of all.entries()) {
        const probability = probabilities[index]!;
        if (probability < telling || !explanation.ways.some((way) => way.marker === marker)) continue;
        seen += probability;
        toward += probability * shareToward(explanation, marker, direction, model, variance, columns);
      }
      // What is left over is spread over hundreds of explanations that hardly move it: either way alike.
      return Math.min(1, toward + (byMarker[marker]! - seen) / 2);
    },
  };
}

/** Probability that an explanation puts a marker off toward a direction, from its normal displacement. */
function shareToward(
  explanation: Explanation,
  marker: number,
  direction: readonly [number, number, number],
  model: WhitenedModel,
  variance: Float64Array,
  columns: readonly SensitivityColumn[],
): number {
  const displaced = columnsOf(explanation);
  const owner = columnMarkersOf(explanation);
  const { mean, covariance } = displacementOf(model, displaced, variance);
  const weights = displaced.map((column, i) => {
    if (owner[i] !== marker) return 0;
    const { vector } = columns[column]!.shifts[0]!;
    return vector[0] * direction[0] + vector[1] * direction[1] + vector[2] * direction[2];
  });
  return normalAbove(weights, mean, covariance);
}

/** A confirmed marker is off fifty times less often than an unconfirmed one. */
const trustedShare = 1 / 50;

/**
 * The ways in which each marker may be off: by itself, and for a landmark that markers were set on, with those. The odds
 * of a marker are shared between its ways.
 */
function waysOf(columns: readonly SensitivityColumn[], alone: number, trusted: ReadonlySet<string>): MarkerWay[] {
  const ways = new Map<string, { marker: number; columns: number[]; odds: number }>();
  columns.forEach(({ marker, definition }, index) => {
    const isFollowed = index >= alone;
    if (definition.purpose === 'tracks') return;
    const leads = columns.some((column, at) => at >= alone && column.marker === marker && column.shifts.length > 1);
    if (isFollowed && !leads) return;
    const key = `${marker}/${isFollowed}`;
    const share = leads ? 0.5 : 1;
    const belief = definition.misplacement.odds * (trusted.has(definition.label) ? trustedShare : 1) * share;
    const way = ways.get(key) ?? { marker, columns: [], odds: belief };
    way.columns.push(index);
    ways.set(key, way);
  });
  return [...ways.values()];
}

function residualsOf(body: StandingBody, rules: readonly AssessedRule[]): Float64Array {
  return Float64Array.from(rules, ({ rule, parameters }) => ruleKinds[rule.kind].residual(body.positions, parameters));
}

/** Deviation of the rules with markers put back by a displacement along their columns. */
function deviationAtPose(
  body: StandingBody,
  rules: readonly AssessedRule[],
  columns: readonly SensitivityColumn[],
  shift: (rule: number) => number,
): (chosen: readonly number[], displacementMm: Float64Array, deviation: Float64Array) => void {
  const lab = body.lab.slice();
  const positions = new Float64Array(body.geometry.size);
  const { forward, left, up } = body.geometry.axes(body.lab);
  return (chosen, displacementMm, deviation) => {
    lab.set(body.lab);
    chosen.forEach((column, i) => {
      for (const { marker, vector } of columns[column]!.shifts) {
        for (let axis = 0; axis < 3; axis++) {
          const along = vector[0] * forward[axis]! + vector[1] * left[axis]! + vector[2] * up[axis]!;
          lab[marker * 3 + axis]! -= displacementMm[i]! * along;
        }
      }
    });
    body.geometry.place(lab, positions);
    rules.forEach(({ rule, parameters }, i) => {
      deviation[i] = ruleKinds[rule.kind].residual(positions, parameters) + shift(i);
    });
  };
}

function sayExplanation(
  explanation: RefinedExplanation,
  probability: number,
  body: StandingBody,
  columns: readonly SensitivityColumn[],
): WeighedExplanation {
  const displaced = columnsOf(explanation);
  const owner = columnMarkersOf(explanation);
  const markers = explanation.ways.map(({ marker }) => body.set.markers[marker]!.label);
  const offMm = explanation.ways.map(({ marker }, at) => {
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
    probability,
    offMm,
    converged: explanation.converged,
  };
}

/** Probability that a weighted sum of normal displacements is above zero. */
function normalAbove(weights: readonly number[], mean: Float64Array, covariance: Float64Array): number {
  const k = weights.length;
  let middle = 0;
  let variance = 0;
  for (let i = 0; i < k; i++) {
    middle += weights[i]! * mean[i]!;
    for (let j = 0; j < k; j++) variance += weights[i]! * weights[j]! * covariance[i * k + j]!;
  }
  return variance > 0 ? normalDistribution(middle / Math.sqrt(variance)) : 0.5;
}

/** Abramowitz and Stegun 26.2.17, absolute error below 7.5e-8. */
function normalDistribution(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    0.3989422804014327 *
    Math.exp((-z * z) / 2) *
    t *
    (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return z > 0 ? 1 - tail : tail;
}
