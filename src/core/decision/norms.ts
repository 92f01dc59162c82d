/**
 * How the residuals of a marker set's rules spread among well-marked people: what an experienced assessor carries in
 * the head. Residuals are values minus the reference of the rule's limits, in the unit of the rule.
 */
export interface Norms {
  readonly name: string;
  readonly version: string;
  /** Where the figures come from, such as `generated` or `laboratory`. */
  readonly origin: string;
  /** The set whose rules these are; another hash is refused. */
  readonly markerSet: { readonly name: string; readonly version: string; readonly sha256: string };
  readonly people: number;
  /** The figures already hold the scatter of the hand that places the markers. */
  readonly includesScatter: boolean;
  /** Size of the body they are for: height of the pelvis above the feet, mm; residuals in mm scale with it. */
  readonly bodyHeightMm: number;
  readonly residuals: readonly string[];
  readonly mean: readonly number[];
  /** Lower triangle, row after row. */
  readonly covariance: readonly number[];
  readonly sources: readonly string[];
}
