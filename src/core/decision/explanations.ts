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

/** One way in which a marker may be misplaced, and what is believed of it before anything is measured. */
export interface MarkerWay {
  readonly marker: number;
  readonly columns: readonly number[];
  readonly odds: number;
}

/** "Unusual body": three times the usual spread. */
const unusualInflation = 9;
const unusualOdds = 0.01;

/**
 * Every explanation with one, two or three displaced markers, in closed form. Singles and pairs take every way of every
 * marker; triples take each marker in the way that explains most by itself, about 1,800 for 22 markers. The list starts
 * with "nothing is wrong" and is not sorted.
 */
export function screenExplanations(
  model: WhitenedModel,
  ways: readonly MarkerWay[],
  varianceMm2: Float64Array,
): Explanation[] {
  const plain = { columns: [], columnMarker: [], markers: [] };
  const explanations: Explanation[] = [
    { kind: 'well-marked', ...plain, logPrior: 0, logOdds: 0 },
    {
      kind: 'unusual-body',
      ...plain,
      logPrior: Math.log(unusualOdds),
      logOdds: Math.log(unusualOdds) + logEvidenceUnusual(model, unusualInflation),
    },
  ];
  const add = (...chosen: MarkerWay[]): number => {
    const columns = chosen.flatMap((way) => way.columns);
    let logPrior = 0;
    for (const { odds } of chosen) logPrior += Math.log(odds);
    const logOdds = logPrior + logEvidence(model, columns, varianceMm2);
    explanations.push({
      kind: 'displaced',
      columns,
      columnMarker: chosen.flatMap((way) => way.columns.map(() => way.marker)),
      markers: chosen.map((way) => way.marker),
      logPrior,
      logOdds,
    });
    return logOdds;
  };
  const single = ways.map((way) => add(way));
  for (let a = 0; a < ways.length; a++) {
    for (let b = a + 1; b < ways.length; b++) if (ways[a]!.marker !== ways[b]!.marker) add(ways[a]!, ways[b]!);
  }
  const best = new Map<number, number>();
  ways.forEach(({ marker }, index) => {
    const held = best.get(marker);
    if (held === undefined || single[index]! > single[held]!) best.set(marker, index);
  });
  const each = [...best.values()].map((index) => ways[index]!);
  for (let a = 0; a < each.length; a++) {
    for (let b = a + 1; b < each.length; b++) {
      for (let c = b + 1; c < each.length; c++) add(each[a]!, each[b]!, each[c]!);
    }
  }
  return explanations;
}

/** Probabilities of all explanations together; they add up to 1. */
export function probabilitiesOf(explanations: readonly { readonly logOdds: number }[]): Float64Array {
  const highest = explanations.reduce((most, { logOdds }) => Math.max(most, logOdds), Number.NEGATIVE_INFINITY);
  const weights = Float64Array.from(explanations, ({ logOdds }) => Math.exp(logOdds - highest));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}
