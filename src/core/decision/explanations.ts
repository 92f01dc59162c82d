import { logEvidence, logEvidenceUnusual, type WhitenedModel } from './evidence.ts';

/** One way to explain all findings together, and how strongly the figures speak for it. */
export interface Explanation {
  readonly kind: 'well-marked' | 'displaced' | 'unusual-body';
  /** Columns that are displaced: all slides of each marker named. */
  readonly columns: readonly number[];
  /** Marker of each column. */
  readonly columnMarker: readonly number[];
  readonly markers: readonly number[];
  readonly logPrior: number;
  /** Log of prior odds times evidence, against "nothing is wrong". */
  readonly logOdds: number;
}

/** What is believed of a marker before anything is measured. */
export interface MarkerPrior {
  readonly marker: number;
  readonly columns: readonly number[];
  /** Odds that this marker is misplaced. */
  readonly odds: number;
}

/** "Unusual body": three times the usual spread. */
const unusualInflation = 9;
const unusualOdds = 0.01;
const mostDisplaced = 3;

/**
 * Every explanation with up to three displaced markers, in closed form: about 1,800 for 22 markers. The list starts
 * with "nothing is wrong" and holds all of them, unsorted.
 */
export function screenExplanations(
  model: WhitenedModel,
  priors: readonly MarkerPrior[],
  varianceMm2: Float64Array,
): Explanation[] {
  const explanations: Explanation[] = [
    { kind: 'well-marked', columns: [], columnMarker: [], markers: [], logPrior: 0, logOdds: 0 },
    {
      kind: 'unusual-body',
      columns: [],
      columnMarker: [],
      markers: [],
      logPrior: Math.log(unusualOdds),
      logOdds: Math.log(unusualOdds) + logEvidenceUnusual(model, unusualInflation),
    },
  ];
  const extend = (
    from: number,
    markers: number[],
    columns: number[],
    columnMarker: number[],
    logPrior: number,
  ): void => {
    for (let next = from; next < priors.length; next++) {
      const prior = priors[next]!;
      const together = [...columns, ...prior.columns];
      const named = [...markers, prior.marker];
      const owners = [...columnMarker, ...prior.columns.map(() => prior.marker)];
      const logOdds = logPrior + Math.log(prior.odds);
      explanations.push({
        kind: 'displaced',
        columns: together,
        columnMarker: owners,
        markers: named,
        logPrior: logOdds,
        logOdds: logOdds + logEvidence(model, together, varianceMm2),
      });
      if (named.length < mostDisplaced) extend(next + 1, named, together, owners, logOdds);
    }
  };
  extend(0, [], [], [], 0);
  return explanations;
}

/** Probabilities of all explanations together; they add up to 1. */
export function probabilitiesOf(explanations: readonly { readonly logOdds: number }[]): Float64Array {
  const highest = explanations.reduce((most, { logOdds }) => Math.max(most, logOdds), Number.NEGATIVE_INFINITY);
  const weights = Float64Array.from(explanations, ({ logOdds }) => Math.exp(logOdds - highest));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}
