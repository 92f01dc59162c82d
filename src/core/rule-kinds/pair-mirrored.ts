import { type Allowed, type Bounds, boundsOf } from './allowed.ts';
import { angleDeg, at } from './positions.ts';
import type { RuleKind, RuleSpec } from './rule-kind.ts';

export interface PairMirrored extends RuleSpec {
  readonly kind: 'pair-mirrored';
  readonly unit: 'mm' | 'deg';
  readonly right: { readonly from: string; readonly to: string };
  readonly left: { readonly from: string; readonly to: string };
  /** A component of the vector in mm, or how far it is turned outward seen from above, in degrees. */
  readonly component: 'forward' | 'up' | 'outward' | 'turn';
  readonly allowed: Allowed;
}

interface Parameters {
  rightFrom: number;
  rightTo: number;
  leftFrom: number;
  leftTo: number;
  component: PairMirrored['component'];
  bounds: Bounds;
}

function component(
  x: Float64Array,
  from: number,
  to: number,
  outward: number,
  which: PairMirrored['component'],
): number {
  const forward = x[to]! - x[from]!;
  const out = outward * (x[to + 1]! - x[from + 1]!);
  switch (which) {
    case 'forward':
      return forward;
    case 'outward':
      return out;
    case 'up':
      return x[to + 2]! - x[from + 2]!;
    case 'turn':
      // A line that points outward turns outward when its outer end goes back.
      return angleDeg(-forward, out);
  }
}

function value(x: Float64Array, p: Parameters): number {
  return component(x, p.rightFrom, p.rightTo, -1, p.component) - component(x, p.leftFrom, p.leftTo, 1, p.component);
}

export const pairMirrored: RuleKind<PairMirrored, Parameters> = {
  kind: 'pair-mirrored',
  summary:
    'Right minus left of how far one point lies from another, forward, up or outward in mm, or of how far the line between them is turned outward in degrees; positive when the right side has more.',
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
    component: spec.component,
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
