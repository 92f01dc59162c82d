import { angleDeg, at, degreesPerRadian } from './positions.ts';
import type { Bounds, RuleKind, RuleSpec } from './rule-kind.ts';

export interface PointInLine extends RuleSpec {
  readonly kind: 'point-in-line';
  readonly unit: 'mm' | 'deg';
  readonly point: string;
  readonly distal: string;
  readonly proximal: string;
  /** Direction along which one looks; where it points is outward. */
  readonly view: string;
  /** Line from which the reach of the point is taken: the turn about the bone that an offset stands for. */
  readonly reachFrom: { readonly distal: string; readonly proximal: string };
  /** Always degrees of turn, whatever the unit of the value. The rule's `borderline` is in degrees as well. */
  readonly allowedTurn: { readonly targetDeg: number; readonly limitDeg: number };
}

interface Parameters {
  point: number;
  distal: number;
  proximal: number;
  view: number;
  reachDistal: number;
  reachProximal: number;
  inDegrees: boolean;
  targetRad: number;
  limitRad: number;
  passRad: number;
}

/**
 * Signed distance of the point from the plane that holds the line and the direction of view: what one sees as an
 * offset when looking along that direction. Positive in front.
 */
function offset(x: Float64Array, p: Parameters): number {
  const dx = x[p.proximal]! - x[p.distal]!;
  const dy = x[p.proximal + 1]! - x[p.distal + 1]!;
  const dz = x[p.proximal + 2]! - x[p.distal + 2]!;
  const vx = x[p.view]!;
  const vy = x[p.view + 1]!;
  const vz = x[p.view + 2]!;
  let nx = vy * dz - vz * dy;
  let ny = vz * dx - vx * dz;
  let nz = vx * dy - vy * dx;
  const size = Math.sqrt(nx * nx + ny * ny + nz * nz);
  if (nx < 0) {
    nx = -nx;
    ny = -ny;
    nz = -nz;
  }
  return (
    ((x[p.point]! - x[p.distal]!) * nx +
      (x[p.point + 1]! - x[p.distal + 1]!) * ny +
      (x[p.point + 2]! - x[p.distal + 2]!) * nz) /
    size
  );
}

/** How far outside the bone's line the point stands along the view. */
function reach(x: Float64Array, p: Parameters): number {
  const dx = x[p.reachProximal]! - x[p.reachDistal]!;
  const dy = x[p.reachProximal + 1]! - x[p.reachDistal + 1]!;
  const dz = x[p.reachProximal + 2]! - x[p.reachDistal + 2]!;
  const px = x[p.point]! - x[p.reachDistal]!;
  const py = x[p.point + 1]! - x[p.reachDistal + 1]!;
  const pz = x[p.point + 2]! - x[p.reachDistal + 2]!;
  const along = (px * dx + py * dy + pz * dz) / (dx * dx + dy * dy + dz * dz);
  const vx = x[p.view]!;
  const vy = x[p.view + 1]!;
  const vz = x[p.view + 2]!;
  return (px - along * dx) * vx + (py - along * dy) * vy + (pz - along * dz) * vz;
}

/** In mm as well there is no value without a reach: there would be nothing to hold it against. */
function value(x: Float64Array, p: Parameters): number {
  const offsetMm = offset(x, p);
  const reachMm = reach(x, p);
  if (Number.isNaN(reachMm)) return Number.NaN;
  return p.inDegrees ? angleDeg(offsetMm, reachMm) : offsetMm;
}

/** Degrees as they are, or the offset that a turn makes at this reach. */
function inUnit(x: Float64Array, p: Parameters, angleRad: number): number {
  return p.inDegrees ? angleRad * degreesPerRadian : Math.tan(angleRad) * Math.max(reach(x, p), 1);
}

function bounds(x: Float64Array, p: Parameters): Bounds {
  const reference = inUnit(x, p, p.targetRad);
  const limit = inUnit(x, p, p.limitRad);
  return {
    reference,
    low: reference - limit,
    high: reference + limit,
    borderline: limit - inUnit(x, p, p.passRad),
  };
}

export const pointInLine: RuleKind<PointInLine, Parameters> = {
  kind: 'point-in-line',
  summary:
    'How far a point stands off the line through two others, seen along a stated direction, in mm or as the turn about the bone that it amounts to; positive in front.',
  needs: (spec) => ({
    points: [spec.point, spec.distal, spec.proximal, spec.reachFrom.distal, spec.reachFrom.proximal],
    views: [spec.view],
    stature: false,
  }),
  resolve: (spec, lookup) => ({
    point: lookup.point(spec.point),
    distal: lookup.point(spec.distal),
    proximal: lookup.point(spec.proximal),
    view: lookup.view(spec.view),
    reachDistal: lookup.point(spec.reachFrom.distal),
    reachProximal: lookup.point(spec.reachFrom.proximal),
    inDegrees: spec.unit === 'deg',
    targetRad: spec.allowedTurn.targetDeg / degreesPerRadian,
    limitRad: spec.allowedTurn.limitDeg / degreesPerRadian,
    passRad: (spec.allowedTurn.limitDeg - spec.borderline) / degreesPerRadian,
  }),
  residual: (x, p) => value(x, p) - inUnit(x, p, p.targetRad),
  describe(x, p) {
    const distal = at(x, p.distal);
    const proximal = at(x, p.proximal);
    return {
      value: value(x, p),
      bounds: bounds(x, p),
      geometry: {
        points: [],
        lines: [{ from: distal, to: proximal }],
        planes: [
          {
            at: distal,
            along: [proximal[0] - distal[0], proximal[1] - distal[1], proximal[2] - distal[2]],
            view: at(x, p.view),
          },
        ],
      },
    };
  },
};
