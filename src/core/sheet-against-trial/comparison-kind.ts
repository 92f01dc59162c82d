import type { ComparisonDefinition } from '../marker-set/comparison-definition.ts';
import type { Person } from '../measurements/expected-size.ts';
import type { StandingBody } from '../pose/standing-body.ts';

/** What a hand measurement should read, from positions of markers and points in body axes (mm). */
export type Prediction = (positions: Float64Array) => number;

/** Why a prediction cannot be made, in words that finish "not compared: ". */
export interface NoPrediction {
  readonly reason: string;
}

/** Reads a hand measurement off the markers of a standing body. */
export type ComparisonKindReader = (
  comparison: ComparisonDefinition,
  body: StandingBody,
  person: Person,
) => Prediction | NoPrediction;

/** Radius and base plate of a marker: how far its centre stands off the skin. */
export function standsOffMm({ set }: StandingBody, label: string): number {
  const { diameterMm, baseThicknessMm } = set.markers.find((marker) => marker.label === label)!;
  return diameterMm / 2 + baseThicknessMm;
}
