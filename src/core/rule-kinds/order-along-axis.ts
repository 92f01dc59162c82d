import { type Allowed, type Bounds, boundsOf } from './allowed.ts';
import { at } from './positions.ts';
import type { RuleKind, RuleSpec } from './rule-kind.ts';

export interface OrderAlongAxis extends RuleSpec {
  readonly kind: 'order-along-axis';
  readonly unit: 'mm';
  readonly first: string;
  readonly second: string;
  readonly axis: 'forward' | 'up' | 'outward';
  /** Segment whose own axes are used; null for the body's. */
  readonly segment: string | null;
  readonly allowed: Allowed;
}

interface Parameters {
  first: number;
  second: number;
  axis: number;
  bounds: Bounds;
}

function value(x: Float64Array, p: Parameters): number {
  return (
    (x[p.first]! - x[p.second]!) * x[p.axis]! +
    (x[p.first + 1]! - x[p.second + 1]!) * x[p.axis + 1]! +
    (x[p.first + 2]! - x[p.second + 2]!) * x[p.axis + 2]!
  );
}

export const orderAlongAxis: RuleKind<OrderAlongAxis, Parameters> = {
  kind: 'order-along-axis',
  summary:
    'How far the first point lies beyond the second along an axis of the segment, in mm: above, in front or outside.',
  needs: (spec) => ({ points: [spec.first, spec.second], views: [], stature: false }),
  resolve: (spec, lookup) => ({
    first: lookup.point(spec.first),
    second: lookup.point(spec.second),
    axis: lookup.axis(spec.segment, spec.axis, spec.side),
    bounds: boundsOf(spec.allowed, spec.borderline),
  }),
  residual: (x, p) => value(x, p) - p.bounds.reference,
  describe(x, p) {
    const second = at(x, p.second);
    const axis = at(x, p.axis);
    return {
      value: value(x, p),
      bounds: p.bounds,
      geometry: {
        points: [],
        lines: [{ from: second, to: at(x, p.first) }],
        planes: [{ at: second, along: axis, view: axis }],
      },
    };
  },
};
