import jstat from 'jstat';
import { mean, standardDeviation } from './mean-squares.ts';

/** Agreement of two ways of measuring the same, Bland and Altman 1986 (Lancet i:307-310). */
export interface LimitsOfAgreement {
  readonly pairs: number;
  readonly meanDifference: number;
  readonly sdDifference: number;
  /** Mean difference -/+ 1.96 SD. */
  readonly low: number;
  readonly high: number;
  /** Standard errors of the mean difference and of each limit, the latter by sqrt(3 s2 / n). */
  readonly meanError: number;
  readonly limitError: number;
  /** 95 % intervals of the mean and the limits: these errors times Student's t. */
  readonly meanInterval: readonly [number, number];
  readonly lowInterval: readonly [number, number];
  readonly highInterval: readonly [number, number];
}

const shareWithin = 1.96;

/** @param pairs the two readings of each person; at least three */
export function limitsOfAgreement(pairs: readonly (readonly [number, number])[]): LimitsOfAgreement {
  const differences = pairs.map(([a, b]) => a - b);
  const n = differences.length;
  const meanDifference = mean(differences);
  const sdDifference = standardDeviation(differences);
  const [low, high] = [meanDifference - shareWithin * sdDifference, meanDifference + shareWithin * sdDifference];
  const meanError = sdDifference / Math.sqrt(n);
  const limitError = Math.sqrt((3 * sdDifference ** 2) / n);
  // Student's t, two-sided 95 %, from the F distribution: t2 with v degrees is F with 1 and v.
  const t = Math.sqrt(jstat.centralF.inv(0.95, 1, n - 1));
  const about = (value: number, error: number): [number, number] => [value - t * error, value + t * error];
  return {
    pairs: n,
    meanDifference,
    sdDifference,
    low,
    high,
    meanError,
    limitError,
    meanInterval: about(meanDifference, meanError),
    lowInterval: about(low, limitError),
    highInterval: about(high, limitError),
  };
}

/** Within-subject standard deviation of paired readings: sqrt(sum of d2 / 2n). */
export function withinSubjectSd(pairs: readonly (readonly [number, number])[]): number {
  return Math.sqrt(pairs.reduce((sum, [a, b]) => sum + (a - b) ** 2, 0) / (2 * pairs.length));
}
