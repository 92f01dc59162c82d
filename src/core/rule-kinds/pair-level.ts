import { type Allowed, type Bounds, boundsOf } from './allowed.ts';
import { at } from './positions.ts';
import type { RuleKind, RuleSpec } from './rule-kind.ts';

export interface PairLevel extends RuleSpec {
  readonly kind: 'pair-level';
  readonly unit: 'mm';
  readonly right: string;
  readonly left: string;
  readonly allowed: Allowed;
}

interface Parameters {
  right: number;
  left: number;
  bounds: Bounds;
}

export const pairLevel: RuleKind<PairLevel, Parameters> = {
  kind: 'pair-level',
  summary: 'How much higher the right point lies than the left, in mm; positive when the right one is higher.',
  needs: (spec) => ({ points: [spec.right, spec.left], views: [], stature: false }),
  resolve: (spec, lookup) => ({
    right: lookup.point(spec.right),
    left: lookup.point(spec.left),
    bounds: boundsOf(spec.allowed, spec.borderline),
  }),
  residual: (x, p) => x[p.right + 2]! - x[p.left + 2]! - p.bounds.reference,
  describe(x, p) {
    const right = at(x, p.right);
    const left = at(x, p.left);
    return {
      value: right[2] - left[2],
      bounds: p.bounds,
      geometry: {
        points: [],
        lines: [
          { from: right, to: left },
          { from: [right[0], right[1], left[2]], to: left },
        ],
        planes: [],
      },
    };
  },
};
