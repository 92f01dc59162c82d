import type { MarkerDefinition } from '../marker-set/marker-set.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { withMarkersAt } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import type { Bounds } from '../rule-kinds/allowed.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import { type Slide, slidesOf } from './slides.ts';

const iterations = 8;
const probeMm = 0.5;
/** A marker further off than this is not a misplaced marker but another one. */
const furthestMm = 150;

/**
 * The smallest shift of one marker along the skin that brings the given rules to what is expected: weighted least
 * squares over the rules (each by its allowed width), solved by Gauss-Newton with axes, virtual points and directions
 * rebuilt at every step; the least-norm answer where the rules leave a direction free.
 * @returns the body with the marker moved, or null where no such shift exists
 */
export function solveDisplacement(
  body: StandingBody,
  marker: MarkerDefinition,
  rules: readonly AssessedRule[],
): StandingBody | null {
  const slot = body.geometry.lookup.point(marker.label);
  const scratch = new Float64Array(body.geometry.size);
  let current = body;
  for (let iteration = 0; iteration < iterations; iteration++) {
    const slides = slidesOf(current, marker);
    const misses = rules.map((rule) => miss(rule, current.positions));
    const slopes = slides.map((slide) => {
      const ahead = placed(current, slot, slide, probeMm, scratch, rules);
      const back = placed(current, slot, slide, -probeMm, scratch, rules);
      return ahead.map((value, index) => (value - back[index]!) / (2 * probeMm));
    });
    const step = leastSquares(slopes, misses);
    if (step === null || !step.every(Number.isFinite)) return null;
    const lab = current.lab.slice();
    slides.forEach((slide, index) => shift(current, lab, slot, slide, step[index]!));
    current = withMarkersAt(body, lab);
    if (distanceMoved(body, current, slot) > furthestMm) return null;
    if (Math.hypot(...step) < 1e-6) break;
  }
  return current;
}

/** How far a rule's value is from where a correction should bring it, in units of the width it is allowed. */
function miss({ rule, parameters, description }: AssessedRule, positions: Float64Array): number {
  const residual = ruleKinds[rule.kind].residual(positions, parameters);
  return (residual - aim(description.bounds)) / width(description.bounds);
}

/** Where a correction should bring the residual: to the middle, or inside the band of an open range. */
function aim({ low, high, borderline }: Bounds): number {
  if (Number.isFinite(low) && Number.isFinite(high)) return 0;
  return Number.isFinite(low) ? borderline : -borderline;
}

export function width({ low, high, borderline }: Bounds): number {
  return Number.isFinite(high - low) ? (high - low) / 2 : Math.max(borderline, 1);
}

function placed(
  body: StandingBody,
  slot: number,
  slide: Slide,
  byMm: number,
  scratch: Float64Array,
  rules: readonly AssessedRule[],
): number[] {
  const lab = body.lab.slice();
  shift(body, lab, slot, slide, byMm);
  body.geometry.place(lab, scratch);
  return rules.map((rule) => miss(rule, scratch));
}

/** Moves one marker in lab axes along a direction given in body axes. */
function shift(body: StandingBody, lab: Float64Array, slot: number, slide: Slide, byMm: number): void {
  const { forward, left, up } = body.geometry.axes(body.lab);
  for (let axis = 0; axis < 3; axis++) {
    lab[slot + axis]! +=
      byMm * (slide.vector[0] * forward[axis]! + slide.vector[1] * left[axis]! + slide.vector[2] * up[axis]!);
  }
}

function distanceMoved(from: StandingBody, to: StandingBody, slot: number): number {
  return Math.hypot(
    to.lab[slot]! - from.lab[slot]!,
    to.lab[slot + 1]! - from.lab[slot + 1]!,
    to.lab[slot + 2]! - from.lab[slot + 2]!,
  );
}

/** Least-norm solution of slopes * u = -misses for one or two unknowns; null where nothing depends on them. */
function leastSquares(slopes: readonly (readonly number[])[], misses: readonly number[]): number[] | null {
  const dot = (a: readonly number[], b: readonly number[]): number =>
    a.reduce((sum, value, i) => sum + value * b[i]!, 0);
  const aa = dot(slopes[0]!, slopes[0]!);
  const ar = -dot(slopes[0]!, misses);
  if (slopes.length === 1) return aa > 1e-12 ? [ar / aa] : null;
  const bb = dot(slopes[1]!, slopes[1]!);
  const ab = dot(slopes[0]!, slopes[1]!);
  const br = -dot(slopes[1]!, misses);
  const trace = aa + bb;
  if (!(trace > 1e-12)) return null;
  const determinant = aa * bb - ab * ab;
  if (determinant > 1e-9 * trace * trace) return [(bb * ar - ab * br) / determinant, (aa * br - ab * ar) / determinant];
  // One direction is free: the pseudo-inverse of a rank-one matrix is the matrix over its squared trace.
  return [(aa * ar + ab * br) / (trace * trace), (ab * ar + bb * br) / (trace * trace)];
}
