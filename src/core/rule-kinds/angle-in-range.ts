import { type Allowed, type Bounds, boundsOf } from './allowed.ts';
import { angleDeg, at, outwardSign } from './positions.ts';
import type { RuleKind, RuleSpec } from './rule-kind.ts';

export interface AngleInRange extends RuleSpec {
  readonly kind: 'angle-in-range';
  readonly unit: 'deg';
  /**
   * `turn-from-forward`: seen from above, how far the line is turned outward (on the midline: to the left) from
   * straight ahead. `turn-from-outward`: how far a line that should point outward is turned outward, its outer end
   * going back. `fall`: seen from the side, how far the line falls below level toward its end. `bend`: seen from
   * the side, how far a joint is bent at `vertex`, positive when the vertex lies in front of the line.
   * `lean-forward`, `lean-left`: how far the line is off the vertical.
   */
  readonly measure: 'turn-from-forward' | 'turn-from-outward' | 'fall' | 'bend' | 'lean-forward' | 'lean-left';
  readonly from: string;
  readonly to: string;
  readonly vertex: string | null;
  readonly allowed: Allowed;
}

interface Parameters {
  from: number;
  to: number;
  vertex: number;
  measure: AngleInRange['measure'];
  outward: number;
  bounds: Bounds;
}

function value(x: Float64Array, p: Parameters): number {
  const forward = x[p.to]! - x[p.from]!;
  const left = x[p.to + 1]! - x[p.from + 1]!;
  const up = x[p.to + 2]! - x[p.from + 2]!;
  switch (p.measure) {
    case 'turn-from-forward':
      return angleDeg(p.outward * left, forward);
    case 'turn-from-outward':
      return angleDeg(-forward, p.outward * left);
    case 'fall':
      return angleDeg(-up, forward);
    case 'lean-forward':
      return angleDeg(forward, up);
    case 'lean-left':
      return angleDeg(left, up);
    case 'bend': {
      // Both halves run downward; their angles from the vertical differ by the bend.
      const upper = angleDeg(x[p.vertex]! - x[p.from]!, x[p.from + 2]! - x[p.vertex + 2]!);
      const lower = angleDeg(x[p.to]! - x[p.vertex]!, x[p.vertex + 2]! - x[p.to + 2]!);
      return upper - lower;
    }
  }
}

export const angleInRange: RuleKind<AngleInRange, Parameters> = {
  kind: 'angle-in-range',
  summary:
    'The angle of a line seen from above or from the side, or the bend of a joint seen from the side, in degrees.',
  needs: (spec) => ({
    points: spec.vertex === null ? [spec.from, spec.to] : [spec.from, spec.vertex, spec.to],
    views: [],
    stature: false,
  }),
  resolve: (spec, lookup) => ({
    from: lookup.point(spec.from),
    to: lookup.point(spec.to),
    vertex: spec.vertex === null ? -1 : lookup.point(spec.vertex),
    measure: spec.measure,
    outward: outwardSign(spec.side),
    bounds: boundsOf(spec.allowed, spec.borderline),
  }),
  residual: (x, p) => value(x, p) - p.bounds.reference,
  describe(x, p) {
    const from = at(x, p.from);
    const to = at(x, p.to);
    const vertex = p.vertex < 0 ? null : at(x, p.vertex);
    return {
      value: value(x, p),
      bounds: p.bounds,
      geometry: {
        points: [],
        lines:
          vertex === null
            ? [{ from, to }]
            : [
                { from, to: vertex },
                { from: vertex, to },
              ],
        planes: [],
      },
    };
  },
};
