import type { Allowed, Bounds } from './allowed.ts';

export type Unit = 'mm' | 'deg' | 'ratio';
export type Side = 'right' | 'left';

/** What every rule of whatever kind states. `side` is where its "outward" points; pairs and midline rules have none. */
export interface RuleSpec {
  readonly kind: string;
  readonly unit: Unit;
  readonly side: Side | 'both' | 'midline';
  readonly borderline: number;
}

/**
 * Finds what a rule names. All answers are offsets into one array of positions: a point's forward, left and up in
 * millimetres at `offset`, `offset + 1`, `offset + 2`; a direction's unit vector likewise.
 */
export interface Lookup {
  point(name: string): number;
  view(name: string): number;
  /** Axis of a segment, or of the body where `segment` is null. */
  axis(segment: string | null, axis: 'forward' | 'up' | 'outward', side: RuleSpec['side']): number;
  /** Measured stature in mm, null where nobody measured it. */
  readonly statureMm: number | null;
}

/** What there is to draw for a rule: body axes, mm. */
export interface RuleGeometry {
  readonly points: readonly string[];
  readonly lines: readonly { readonly from: readonly number[]; readonly to: readonly number[] }[];
  /** A plane seen edge-on as a line: through `at`, along `along`, seen in the direction `view`. */
  readonly planes: readonly {
    readonly at: readonly number[];
    readonly along: readonly number[];
    readonly view: readonly number[];
  }[];
}

export interface Description {
  readonly value: number;
  readonly bounds: Bounds;
  readonly geometry: RuleGeometry;
  /** 1 SD of an axis that is only estimated, in the unit of the value; the rule's limit already leaves room for it. */
  readonly estimatedAxisSd?: number;
}

/**
 * One kind of geometric rule. `residual` is called thousands of times by whoever differentiates the rules: it
 * allocates nothing and returns the value minus the bounds' reference, NaN where the geometry collapses.
 */
export interface RuleKind<Spec extends RuleSpec, Parameters> {
  readonly kind: Spec['kind'];
  /** One sentence: what is measured, and when it is positive. */
  readonly summary: string;
  /** Points and views the rule cannot do without. */
  needs(spec: Spec): {
    readonly points: readonly string[];
    readonly views: readonly string[];
    readonly stature: boolean;
  };
  resolve(spec: Spec, lookup: Lookup): Parameters;
  residual(positions: Float64Array, parameters: Parameters): number;
  describe(positions: Float64Array, parameters: Parameters): Description;
}

export type { Allowed, Bounds };
