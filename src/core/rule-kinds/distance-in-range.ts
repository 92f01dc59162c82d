import { type Allowed, type Bounds, boundsOf } from './allowed.ts';
import { at, distance } from './positions.ts';
import type { RuleKind, RuleSpec } from './rule-kind.ts';

export interface DistanceInRange extends RuleSpec {
  readonly kind: 'distance-in-range';
  readonly unit: 'mm' | 'ratio';
  readonly from: string;
  readonly to: string;
  /** What the distance is divided by: another distance on the same body, or the measured stature. */
  readonly per: { readonly from: string; readonly to: string } | 'stature' | null;
  readonly allowed: Allowed;
}

interface Parameters {
  from: number;
  to: number;
  perFrom: number;
  perTo: number;
  /** Fixed divisor where there is no second distance. */
  divisor: number;
  bounds: Bounds;
}

function value(x: Float64Array, p: Parameters): number {
  const per = p.perFrom < 0 ? p.divisor : distance(x, p.perFrom, p.perTo);
  return per > 0 ? distance(x, p.from, p.to) / per : Number.NaN;
}

export const distanceInRange: RuleKind<DistanceInRange, Parameters> = {
  kind: 'distance-in-range',
  summary: 'The distance between two points in mm, or its ratio to another distance or to the measured stature.',
  needs: (spec) => ({
    points:
      spec.per === null || spec.per === 'stature'
        ? [spec.from, spec.to]
        : [spec.from, spec.to, spec.per.from, spec.per.to],
    views: [],
    stature: spec.per === 'stature',
  }),
  resolve: (spec, lookup) => ({
    from: lookup.point(spec.from),
    to: lookup.point(spec.to),
    perFrom: spec.per === null || spec.per === 'stature' ? -1 : lookup.point(spec.per.from),
    perTo: spec.per === null || spec.per === 'stature' ? -1 : lookup.point(spec.per.to),
    divisor: spec.per === 'stature' ? (lookup.statureMm ?? Number.NaN) : 1,
    bounds: boundsOf(spec.allowed, spec.borderline),
  }),
  residual: (x, p) => value(x, p) - p.bounds.reference,
  describe: (x, p) => ({
    value: value(x, p),
    bounds: p.bounds,
    geometry: {
      points: [],
      lines: [
        { from: at(x, p.from), to: at(x, p.to) },
        ...(p.perFrom < 0 ? [] : [{ from: at(x, p.perFrom), to: at(x, p.perTo) }]),
      ],
      planes: [],
    },
  }),
};
