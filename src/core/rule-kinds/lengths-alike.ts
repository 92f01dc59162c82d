import { type Allowed, type Bounds, boundsOf } from './allowed.ts';
import { at, distance } from './positions.ts';
import type { RuleKind, RuleSpec } from './rule-kind.ts';

export interface LengthsAlike extends RuleSpec {
  readonly kind: 'lengths-alike';
  readonly unit: 'mm';
  readonly right: { readonly from: string; readonly to: string };
  readonly left: { readonly from: string; readonly to: string };
  readonly allowed: Allowed;
}

interface Parameters {
  rightFrom: number;
  rightTo: number;
  leftFrom: number;
  leftTo: number;
  bounds: Bounds;
}

function value(x: Float64Array, p: Parameters): number {
  return distance(x, p.rightFrom, p.rightTo) - distance(x, p.leftFrom, p.leftTo);
}

export const lengthsAlike: RuleKind<LengthsAlike, Parameters> = {
  kind: 'lengths-alike',
  summary: 'Right minus left of the distance between two points, in mm; positive when the right one is longer.',
  needs: (spec) => ({
    points: [spec.right.from, spec.right.to, spec.left.from, spec.left.to],
    views: [],
    stature: false,
  }),
  resolve: (spec, lookup) => ({
    rightFrom: lookup.point(spec.right.from),
    rightTo: lookup.point(spec.right.to),
    leftFrom: lookup.point(spec.left.from),
    leftTo: lookup.point(spec.left.to),
    bounds: boundsOf(spec.allowed, spec.borderline),
  }),
  residual: (x, p) => value(x, p) - p.bounds.reference,
  describe: (x, p) => ({
    value: value(x, p),
    bounds: p.bounds,
    geometry: {
      points: [],
      lines: [
        { from: at(x, p.rightFrom), to: at(x, p.rightTo) },
        { from: at(x, p.leftFrom), to: at(x, p.leftTo) },
      ],
      planes: [],
    },
  }),
};
