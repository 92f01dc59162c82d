import jstat from 'jstat';
import type { MeanSquares } from './mean-squares.ts';

/**
 * Models of Shrout and Fleiss: `1` each target has other raters; `2` the raters are drawn from many and shall agree in
 * value; `3` these raters only, and a constant difference between them does not count.
 */
export type IccModel = 1 | 2 | 3;

export interface Icc {
  readonly model: IccModel;
  /** Of one rating, or of the mean of all raters. */
  readonly of: 'single' | 'mean';
  readonly value: number;
  /** 95 % confidence interval. */
  readonly low: number;
  readonly high: number;
}

const tail = 0.975;

/**
 * Intraclass correlation with its 95 % interval: Shrout and Fleiss 1979 (Psychol Bull 86:420-428); interval of model 2 by
 * Satterthwaite's degrees of freedom as in McGraw and Wong 1996 (Psychol Methods 1:30-46), from memory.
 */
export function intraclassCorrelation(ms: MeanSquares, model: IccModel, of: 'single' | 'mean' = 'single'): Icc {
  const { targets: n, raters: k, between, within, judges, error } = ms;
  const single = { 1: model1, 2: model2, 3: model3 }[model](ms);
  if (of === 'single') return { model, of, ...single };
  const values = {
    1: (between - within) / between,
    2: (between - error) / (between + (judges - error) / n),
    3: (between - error) / between,
  };
  // The mean of k ratings, by Spearman and Brown's step up.
  const stepped = (icc: number): number => (k * icc) / (1 + (k - 1) * icc);
  return { model, of, value: values[model], low: stepped(single.low), high: stepped(single.high) };
}

type Estimate = Pick<Icc, 'value' | 'low' | 'high'>;

function model1({ targets: n, raters: k, between, within }: MeanSquares): Estimate {
  return byRatio(between / within, n - 1, n * (k - 1), k);
}

function model3({ targets: n, raters: k, between, error }: MeanSquares): Estimate {
  return byRatio(between / error, n - 1, (n - 1) * (k - 1), k);
}

function byRatio(f: number, df1: number, df2: number, k: number): Estimate {
  const low = f / jstat.centralF.inv(tail, df1, df2);
  const high = f * jstat.centralF.inv(tail, df2, df1);
  return { value: (f - 1) / (f + k - 1), low: (low - 1) / (low + k - 1), high: (high - 1) / (high + k - 1) };
}

function model2({ targets: n, raters: k, between, judges, error }: MeanSquares): Estimate {
  const value = (between - error) / (between + (k - 1) * error + (k * (judges - error)) / n);
  const f = judges / error;
  const a = n * (1 + (k - 1) * value) - k * value;
  const df = ((k - 1) * (n - 1) * (k * value * f + a) ** 2) / ((n - 1) * k ** 2 * value ** 2 * f ** 2 + a ** 2);
  const above = jstat.centralF.inv(tail, n - 1, df);
  const below = jstat.centralF.inv(tail, df, n - 1);
  const rest = k * judges + (k * n - k - n) * error;
  return {
    value,
    low: (n * (between - above * error)) / (above * rest + n * between),
    high: (n * (below * between - error)) / (rest + n * below * between),
  };
}
