import { mean } from './sample-statistics.ts';

/** Mean range of two values over their standard deviation, and the upper limit of that range (NIST e-Handbook 6.3.2.2). */
const rangeOverSd = 1.128;
const rangeUpperFactor = 3.267;
const limitSd = 3;

export interface IndividualsChart {
  readonly centre: number;
  readonly meanRange: number;
  /** Mean moving range / 1.128. */
  readonly sd: number;
  readonly lower: number;
  readonly upper: number;
  readonly rangeUpper: number;
}

/** Chart of single values: limits from the moving ranges of the values it is set up on, 2.66 mean ranges either way. */
export function individualsChart(baseline: readonly number[]): IndividualsChart {
  const ranges = baseline.slice(1).map((value, index) => Math.abs(value - baseline[index]!));
  const centre = mean(baseline);
  const meanRange = mean(ranges);
  const sd = meanRange / rangeOverSd;
  return {
    centre,
    meanRange,
    sd,
    lower: centre - limitSd * sd,
    upper: centre + limitSd * sd,
    rangeUpper: rangeUpperFactor * meanRange,
  };
}

/**
 * The chart from a baseline without its own outliers: values outside their limits are left out and the limits set anew,
 * until none is outside (the usual first phase of a chart, common practice), as long as half of the values remain.
 */
export function settledChart(baseline: readonly number[]): IndividualsChart & { readonly leftOut: number } {
  let kept = baseline;
  for (;;) {
    const chart = individualsChart(kept);
    const inside = kept.filter((value) => value >= chart.lower && value <= chart.upper);
    if (inside.length === kept.length || inside.length < baseline.length / 2)
      return { ...chart, leftOut: baseline.length - kept.length };
    kept = inside;
  }
}

export interface EwmaPoint {
  readonly value: number;
  readonly lower: number;
  readonly upper: number;
}

/**
 * Exponentially weighted moving average: slow to move, quick to see a drift (NIST e-Handbook 6.3.2.4). The limits open
 * up from the start, as the average leans on more and more values.
 * @param lambda weight of the newest value
 */
export function ewma(
  values: readonly number[],
  start: number,
  sd: number,
  lambda: number,
  width = limitSd,
): EwmaPoint[] {
  let average = start;
  return values.map((value, index) => {
    average = lambda * value + (1 - lambda) * average;
    const spread = sd * Math.sqrt((lambda / (2 - lambda)) * (1 - (1 - lambda) ** (2 * (index + 1))));
    return { value: average, lower: start - width * spread, upper: start + width * spread };
  });
}
