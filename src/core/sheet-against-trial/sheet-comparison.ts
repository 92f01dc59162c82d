import type { ReadingName } from '../measurements/sheet-finding.ts';

/** A reading that may be wrong, weighed beside markers that may be off. */
export interface DoubtfulReading extends ReadingName {
  /** Mean of what was read, mm. */
  readonly mm: number;
  /** How far it is off when it was misread, 1 SD, mm, and the odds that it was. */
  readonly misreadSdMm: number;
  readonly odds: number;
}

/** One relation between the sheet and the trial, or within the sheet: near zero where both are right. */
export interface ComparedRow {
  readonly id: string;
  readonly title: string;
  /** Index of the reading that is compared. */
  readonly reading: number;
  /** Markers that foretell it; none where readings are compared among themselves. */
  readonly markers: readonly string[];
  /** What was foretold less what was read, mm, from positions in body axes. */
  residual(positions: Float64Array): number;
  /** Change of the residual for each mm that each reading is too large. */
  readonly slopes: Float64Array;
}

/** A comparison of the set that could not be made, and why. */
export interface NotCompared extends ReadingName {
  readonly title: string;
  readonly reason: string;
}

/** Everything that is known beside the rules: the sheet against the trial, and against itself. */
export interface SheetComparison {
  readonly readings: readonly DoubtfulReading[];
  /** Those with markers first, then those among readings. */
  readonly rows: readonly ComparedRow[];
  /** How many of the rows have markers. */
  readonly trialRows: number;
  /** Covariance of the rows among people measured and marked right, row-major, mm2; without the scatter of the hand that places markers. */
  readonly covariance: Float64Array;
  readonly notCompared: readonly NotCompared[];
}
