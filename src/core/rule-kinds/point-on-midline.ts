import { type Allowed, type Bounds, boundsOf } from './allowed.ts';
import { at } from './positions.ts';
import type { RuleKind, RuleSpec } from './rule-kind.ts';

export interface PointOnMidline extends RuleSpec {
  readonly kind: 'point-on-midline';
  readonly unit: 'mm';
  readonly point: string;
  readonly right: string;
  readonly left: string;
  readonly allowed: Allowed;
}

interface Parameters {
  point: number;
  right: number;
  left: number;
  bounds: Bounds;
}

/** Seen from above, along the levelled line from the right to the left point. */
function value(x: Float64Array, p: Parameters): number {
  const forward = x[p.left]! - x[p.right]!;
  const left = x[p.left + 1]! - x[p.right + 1]!;
  const fromMiddleForward = x[p.point]! - (x[p.left]! + x[p.right]!) / 2;
  const fromMiddleLeft = x[p.point + 1]! - (x[p.left + 1]! + x[p.right + 1]!) / 2;
  return (fromMiddleForward * forward + fromMiddleLeft * left) / Math.sqrt(forward * forward + left * left);
}

export const pointOnMidline: RuleKind<PointOnMidline, Parameters> = {
  kind: 'point-on-midline',
  summary:
    "How far a point lies to the left of the middle between a right and a left point, in mm; positive to the patient's left.",
  needs: (spec) => ({ points: [spec.point, spec.right, spec.left], views: [], stature: false }),
  resolve: (spec, lookup) => ({
    point: lookup.point(spec.point),
    right: lookup.point(spec.right),
    left: lookup.point(spec.left),
    bounds: boundsOf(spec.allowed, spec.borderline),
  }),
  residual: (x, p) => value(x, p) - p.bounds.reference,
  describe(x, p) {
    const right = at(x, p.right);
    const left = at(x, p.left);
    const middle = [(right[0] + left[0]) / 2, (right[1] + left[1]) / 2, (right[2] + left[2]) / 2];
    return {
      value: value(x, p),
      bounds: p.bounds,
      geometry: {
        points: [],
        lines: [{ from: right, to: left }],
        planes: [{ at: middle, along: [0, 0, 1], view: [1, 0, 0] }],
      },
    };
  },
};
