import { type Allowed, type Bounds, boundsOf } from './allowed.ts';
import { angleDeg, at } from './positions.ts';
import type { RuleKind, RuleSpec } from './rule-kind.ts';

export interface LineParallelToFloor extends RuleSpec {
  readonly kind: 'line-parallel-to-floor';
  readonly unit: 'mm' | 'deg';
  readonly from: string;
  readonly to: string;
  readonly allowed: Allowed;
}

interface Parameters {
  from: number;
  to: number;
  inDegrees: boolean;
  bounds: Bounds;
}

function value(x: Float64Array, p: Parameters): number {
  const rise = x[p.from + 2]! - x[p.to + 2]!;
  if (!p.inDegrees) return rise;
  const forward = x[p.from]! - x[p.to]!;
  const left = x[p.from + 1]! - x[p.to + 1]!;
  return angleDeg(rise, Math.sqrt(forward * forward + left * left));
}

export const lineParallelToFloor: RuleKind<LineParallelToFloor, Parameters> = {
  kind: 'line-parallel-to-floor',
  summary:
    'How much higher the first point lies than the second, in mm, or the slope of the line between them in degrees; positive when the first is higher.',
  needs: (spec) => ({ points: [spec.from, spec.to], views: [], stature: false }),
  resolve: (spec, lookup) => ({
    from: lookup.point(spec.from),
    to: lookup.point(spec.to),
    inDegrees: spec.unit === 'deg',
    bounds: boundsOf(spec.allowed, spec.borderline),
  }),
  residual: (x, p) => value(x, p) - p.bounds.reference,
  describe(x, p) {
    const from = at(x, p.from);
    const to = at(x, p.to);
    return {
      value: value(x, p),
      bounds: p.bounds,
      geometry: {
        points: [],
        lines: [
          { from, to },
          { from: [from[0], from[1], to[2]], to },
        ],
        planes: [],
      },
    };
  },
};
