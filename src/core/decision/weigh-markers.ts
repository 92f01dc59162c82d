import type { MarkerDefinition } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import { displacementOf, whiten } from './evidence.ts';
import { type MarkerPrior, probabilitiesOf, screenExplanations } from './explanations.ts';
import type { Norms } from './norms.ts';
import { type RefinedExplanation, refineExplanation } from './refine-explanation.ts';
import { measureSensitivity, type Sensitivity } from './sensitivity.ts';
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
/** Explanations less probable than this add nothing that shows. */
const negligible = 1e-4;

/**
 * Weighs which markers are off, over all findings together: every explanation with up to three displaced markers in
 * closed form, the best five refined. Null where the norms know none of the rules or the figures cannot be weighed.
 *
 * @param trusted markers confirmed on the bone
 * @param bodyHeightMm height of the pelvis above the feet, for the size of the body
 */
export function weighMarkers(
  body: StandingBody,
  assessed: readonly AssessedRule[],
  norms: Norms,
  bodyHeightMm: number,
  trusted: ReadonlySet<string>,
): WeighedMarkers | null {
  const rules = rulesWithNorms(assessed, norms);
  if (rules.length === 0) return null;
  const sensitivity = measureSensitivity(body, rules);
  const expected = expectWellMarked(body, rules, norms, bodyHeightMm, sensitivity);
  const model = whiten(
    expected,
    sensitivity.columns.map(({ slopes }) => slopes),
  );
  if (model === null) return null;
  const variance = Float64Array.from(sensitivity.columns, ({ definition }) => definition.misplacement.sdMm ** 2);
  const explanations = screenExplanations(model, priorsOf(sensitivity, trusted), variance);
  const ranked = [...explanations.keys()].sort((a, b) => explanations[b]!.logOdds - explanations[a]!.logOdds);

  const scale = rules.map((_, i) => expected.deviation[i]!);
  const base = residualsOf(body, rules);
  const deviationAt = deviationAtPose(body, rules, sensitivity, (i) => scale[i]! - base[i]!);
  const best = ranked
    .slice(0, refined)
    .map((index) =>
      refineExplanation(model, explanations[index]!, variance, deviationAt, explanations[index]!.logPrior),
    );
  const all = explanations.slice();
  ranked.slice(0, refined).forEach((index, place) => {
    all[index] = best[place]!;
  });
  const probabilities = probabilitiesOf(all);

  const order = [...best.keys()].sort((a, b) => best[b]!.logOdds - best[a]!.logOdds);
  const probabilityOf = (marker: string, share: (index: number) => number): number => {
    const at = body.set.markers.findIndex(({ label }) => label === marker);
    let sum = 0;
    for (let index = 0; index < all.length; index++) {
      if (probabilities[index]! < negligible || !all[index]!.markers.includes(at)) continue;
      sum += probabilities[index]! * share(index);
    }
    return Math.min(1, sum);
  };
  return {
    explanations: order.map((place) => sayExplanation(best[place]!, probabilities[ranked[place]!]!, body, sensitivity)),
    probability: (marker) => probabilityOf(marker, () => 1),
    probabilityToward: (marker, direction) =>
      probabilityOf(marker, (index) => {
        const { columns, columnMarker } = all[index]!;
        const { mean, covariance } = displacementOf(model, columns, variance);
        const at = body.set.markers.findIndex(({ label }) => label === marker);
        const weights = columns.map((column, i) => {
          if (columnMarker[i] !== at) return 0;
          const { vector } = sensitivity.columns[column]!.slide;
          return vector[0] * direction[0] + vector[1] * direction[1] + vector[2] * direction[2];
        });
        return normalAbove(weights, mean, covariance);
      }),
  };
}

function priorsOf(sensitivity: Sensitivity, trusted: ReadonlySet<string>): MarkerPrior[] {
  const priors = new Map<number, { definition: MarkerDefinition; columns: number[] }>();
  sensitivity.columns.forEach(({ marker, definition }, column) => {
    if (definition.purpose === 'tracks') return;
    const own = priors.get(marker) ?? { definition, columns: [] };
    own.columns.push(column);
    priors.set(marker, own);
  });
  return [...priors].map(([marker, { definition, columns }]) => ({
    marker,
    columns,
    odds: trusted.has(definition.label) ? definition.misplacement.odds / 50 : definition.misplacement.odds,
  }));
}

function residualsOf(body: StandingBody, rules: readonly AssessedRule[]): Float64Array {
  return Float64Array.from(rules, ({ rule, parameters }) => ruleKinds[rule.kind].residual(body.positions, parameters));
}

/** Deviation of the rules with markers put back by a displacement along their columns. */
function deviationAtPose(
  body: StandingBody,
  rules: readonly AssessedRule[],
  sensitivity: Sensitivity,
  shift: (rule: number) => number,
): (columns: readonly number[], displacementMm: Float64Array, deviation: Float64Array) => void {
  const lab = body.lab.slice();
  const positions = new Float64Array(body.geometry.size);
  const { forward, left, up } = body.geometry.axes(body.lab);
  return (columns, displacementMm, deviation) => {
    lab.set(body.lab);
    columns.forEach((column, i) => {
      const { marker, slide } = sensitivity.columns[column]!;
      for (let axis = 0; axis < 3; axis++) {
        const along = slide.vector[0] * forward[axis]! + slide.vector[1] * left[axis]! + slide.vector[2] * up[axis]!;
        lab[marker * 3 + axis]! -= displacementMm[i]! * along;
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
  sensitivity: Sensitivity,
): WeighedExplanation {
  const offMm = explanation.markers.map((marker) => {
    const vector: [number, number, number] = [0, 0, 0];
    explanation.columns.forEach((column, i) => {
      if (explanation.columnMarker[i] !== marker) return;
      const along = sensitivity.columns[column]!.slide.vector;
      for (let axis = 0; axis < 3; axis++) vector[axis]! += explanation.displacementMm[i]! * along[axis]!;
    });
    return { marker: body.set.markers[marker]!.label, vector };
  });
  return {
    kind: explanation.kind,
    markers: explanation.markers.map((marker) => body.set.markers[marker]!.label),
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
