import { type Allowed, type Bounds, boundsOf } from './allowed.ts';
import { angleDeg, at } from './positions.ts';
import type { RuleKind, RuleSpec } from './rule-kind.ts';

export interface LineSquareToAxis extends RuleSpec {
  readonly kind: 'line-square-to-axis';
  readonly unit: 'deg';
  readonly from: string;
  readonly to: string;
  readonly axisFrom: string;
  readonly axisTo: string;
  /** How far the axis may be off as an estimate, 1 SD; told beside the value. The limit must leave room for it. */
  readonly axisSdDeg: number;
  readonly allowed: Allowed;
}

interface Parameters {
  from: number;
  to: number;
  axisFrom: number;
  axisTo: number;
  axisSdDeg: number;
  bounds: Bounds;
}

/** Angle in the plane of forward and up, so what is seen from the side. */
function value(x: Float64Array, p: Parameters): number {
  const lineForward = x[p.to]! - x[p.from]!;
  const lineUp = x[p.to + 2]! - x[p.from + 2]!;
  const axisForward = x[p.axisTo]! - x[p.axisFrom]!;
  const axisUp = x[p.axisTo + 2]! - x[p.axisFrom + 2]!;
  const along = axisForward * lineForward + axisUp * lineUp;
  const square = axisUp * lineForward - axisForward * lineUp;
  return angleDeg(-along, square);
}

export const lineSquareToAxis: RuleKind<LineSquareToAxis, Parameters> = {
  kind: 'line-square-to-axis',
  summary:
    'How far a line is off square to an axis, seen from the side, in degrees; positive when the back end of the line is too high (or its front end too low).',
  needs: (spec) => ({ points: [spec.from, spec.to, spec.axisFrom, spec.axisTo], views: [], stature: false }),
  resolve: (spec, lookup) => ({
    from: lookup.point(spec.from),
    to: lookup.point(spec.to),
    axisFrom: lookup.point(spec.axisFrom),
    axisTo: lookup.point(spec.axisTo),
    axisSdDeg: spec.axisSdDeg,
    bounds: boundsOf(spec.allowed, spec.borderline),
  }),
  residual: (x, p) => value(x, p) - p.bounds.reference,
  describe: (x, p) => ({
    value: value(x, p),
    bounds: p.bounds,
    estimatedAxisSd: p.axisSdDeg,
    geometry: {
      points: [],
      lines: [
        { from: at(x, p.from), to: at(x, p.to) },
        { from: at(x, p.axisFrom), to: at(x, p.axisTo) },
      ],
      planes: [],
    },
  }),
};
