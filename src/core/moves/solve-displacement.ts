import type { MarkerDefinition } from '../marker-set/marker-set.ts';
import { type Slide, slidesOf } from '../pose/slides.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { withMarkersAt } from '../pose/standing-body.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import type { Bounds } from '../rule-kinds/allowed.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';

const iterations = 20;
/** One step goes no further than this: far from the answer the rules' slopes promise too much. */
const longestStepMm = 50;
const probeMm = 0.5;
/** A marker further off than this is not a misplaced marker but another one. */
const furthestMm = 150;
const leastSlopeSquared = 1e-12;
/**
 * Eigenvalues below this share of the larger one leave their direction free: rules that see it at a slant of less than
 * about 10 degrees would ask for a long way there to mend a small remainder.
 */
const leastConditioned = 0.03;

/**
 * The smallest shift of one marker along the skin that brings the given rules to what is expected: weighted least
 * squares over the rules (each by its allowed width), solved by Gauss-Newton with axes, virtual points and directions
 * rebuilt at every step; the least-norm answer where the rules leave a direction free, or nearly so.
 *
 * A landmark's shift runs along the skin as its segment lies when the marker is right: a marker that is off turns the
 * axes of its segment with it. A wand goes round the bone in small steps.
 * @returns the body with the marker moved, or null where no such shift exists
 */
export function solveDisplacement(
  body: StandingBody,
  marker: MarkerDefinition,
  rules: readonly AssessedRule[],
): StandingBody | null {
  const slot = body.geometry.lookup.point(marker.label);
  const scratch = new Float64Array(body.geometry.size);
  const total = marker.slides.map(() => 0);
  const aimed = rules.some(({ rule }) => !hasRange(rule));
  const missesOf = (positions: Float64Array): number[] => rules.map((rule) => miss(rule, positions, aimed));
  let current = body;
  for (let iteration = 0; iteration < iterations; iteration++) {
    const slides = slidesOf(current, marker);
    const misses = missesOf(current.positions);
    const slopes = slides.map((slide) => {
      const ahead = placed(current, slot, slide, probeMm, scratch, missesOf);
      const back = placed(current, slot, slide, -probeMm, scratch, missesOf);
      return ahead.map((value, index) => (value - back[index]!) / (2 * probeMm));
    });
    const wanted = leastSquares(slopes, misses);
    if (wanted === null || !wanted.every(Number.isFinite)) return null;
    const short = Math.min(1, longestStepMm / Math.hypot(...wanted));
    const step = wanted.map((mm) => mm * short);
    step.forEach((mm, index) => {
      total[index]! += mm;
    });
    const goesRound = marker.wandLengthMm > 0;
    const lab = (goesRound ? current : body).lab.slice();
    slides.forEach((slide, index) => shift(current, lab, slot, slide, (goesRound ? step : total)[index]!));
    const next = withMarkersAt(body, lab);
    const changedMm = distanceMoved(current, next, slot);
    current = next;
    if (changedMm < 1e-6) break;
  }
  return distanceMoved(body, current, slot) <= furthestMm ? current : null;
}

/**
 * How far a rule's value is from where a correction should bring it, in units of the width it is allowed: to its
 * target, or to the middle of a range. An open range, and one beside a rule that has a target, only asks to be met.
 */
function miss({ rule, parameters, description }: AssessedRule, positions: Float64Array, aimed: boolean): number {
  const residual = ruleKinds[rule.kind].residual(positions, parameters);
  const { reference, low, high, borderline } = description.bounds;
  const onlyMeet = hasRange(rule) && (aimed || !Number.isFinite(high - low));
  const beyond = onlyMeet
    ? Math.max(0, residual - (high - reference - borderline)) + Math.min(0, residual - (low - reference + borderline))
    : residual;
  return beyond / width(description.bounds);
}

function hasRange(rule: AssessedRule['rule']): boolean {
  return 'allowed' in rule && 'range' in rule.allowed;
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
  missesOf: (positions: Float64Array) => number[],
): number[] {
  const lab = body.lab.slice();
  shift(body, lab, slot, slide, byMm);
  body.geometry.place(lab, scratch);
  return missesOf(scratch);
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

/**
 * Least-norm solution of slopes * u = -misses for one or two unknowns, by the eigenvectors of the normal matrix; null
 * where nothing depends on them.
 */
function leastSquares(slopes: readonly (readonly number[])[], misses: readonly number[]): number[] | null {
  const dot = (a: readonly number[], b: readonly number[]): number =>
    a.reduce((sum, value, i) => sum + value * b[i]!, 0);
  const [a, b] = slopes as [readonly number[], readonly number[] | undefined];
  const aa = dot(a, a);
  const ar = -dot(a, misses);
  if (b === undefined) return aa > leastSlopeSquared ? [ar / aa] : null;
  const bb = dot(b, b);
  const br = -dot(b, misses);
  const turn = Math.atan2(2 * dot(a, b), aa - bb) / 2;
  const major = [Math.cos(turn), Math.sin(turn)] as const;
  const spread = Math.hypot(aa - bb, 2 * dot(a, b));
  const high = (aa + bb + spread) / 2;
  const low = (aa + bb - spread) / 2;
  if (!(high > leastSlopeSquared)) return null;
  const alongMajor = (major[0] * ar + major[1] * br) / high;
  const alongMinor = low > leastConditioned * high ? (major[0] * br - major[1] * ar) / low : 0;
  return [alongMajor * major[0] - alongMinor * major[1], alongMajor * major[1] + alongMinor * major[0]];
}
