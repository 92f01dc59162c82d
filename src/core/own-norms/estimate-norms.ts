import type { Norms } from '../decision/norms.ts';
import { median } from '../geometry/statistics.ts';
import type { RuleMirror } from './mirror-of-rules.ts';
import { asCorrelation, pairwiseCorrelation } from './robust-correlation.ts';
import { robustScale } from './robust-scale.ts';

/** One person of the laboratory: residuals of the rules, mm scaled to the norms' body height; NaN where not judged. */
export interface MarkedPerson {
  readonly residuals: Float64Array;
  /** Who placed the markers; null where nobody is recorded. */
  readonly assessor: string | null;
}

/** What is known of a rule before the laboratory's own figures. */
export interface PriorRule {
  readonly id: string;
  /** The protocol places one marker by others: its target is not learnt. */
  readonly isConstruction: boolean;
  readonly mean: number;
  /** Among well-marked people, hand scatter included, 1 SD. */
  readonly sd: number;
}

export interface Prior {
  readonly rules: readonly PriorRule[];
  /** Correlation of the rules, row-major, hand scatter included. */
  readonly correlation: Float64Array;
}

/** One rule before and after. */
export interface RuleEstimate {
  readonly id: string;
  /** People in whom it was judged. */
  readonly people: number;
  readonly priorMean: number;
  readonly priorSd: number;
  /** Robust middle and spread of the laboratory's people; null where too few. */
  readonly ownMiddle: number | null;
  readonly ownSd: number | null;
  readonly mean: number;
  readonly sd: number;
  /** The laboratory's spread lies beyond what is believed, and was held at that. */
  readonly isHeld: boolean;
}

export interface NormsEstimate {
  readonly rules: readonly RuleEstimate[];
  /** Row-major. */
  readonly covariance: Float64Array;
  readonly mean: Float64Array;
}

/** As many people as the shipped norms count for: 51 rules need more than 50 to say anything of their correlations. */
export const priorPeople = 100;
/** Under so many people a rule keeps what it had. */
export const fewestOfRule = 30;
/** Under so many of an assessor, what the hand always does is not told apart. */
const fewestOfAssessor = 10;
/** Robust standard deviations beyond which a value is taken for a marker that was off, in the second pass. */
const offFromSd = 3;
/** A spread of more than twice, or less than half, what was expected is held there and told. */
const mostRatio = 2;

/**
 * Spread and correlation of the rules from a laboratory's own people, robustly, and drawn toward the prior: as if the
 * prior were so many people more. The middle of a construction rule stays the prior's, and its spread is taken about what
 * each assessor always does: a habit shared by everybody would otherwise become the expectation.
 *
 * Spread: Qn (Rousseeuw and Croux 1993), a second time without what lies 3 of it from the middle. Correlation: pair by
 * pair (see robust-correlation). Weights: those of a conjugate prior (Gelman et al., Bayesian Data Analysis, section 3.6;
 * from memory), for each spread by the people in whom the rule was judged.
 *
 * @param mirrors makes right and left alike, since a laboratory's chance differences between them are no knowledge
 */
export function estimateNorms(
  people: readonly MarkedPerson[],
  prior: Prior,
  mirrors: ReadonlyMap<string, RuleMirror>,
): NormsEstimate {
  const p = prior.rules.length;
  const partner = partnersOf(prior.rules, mirrors);
  const columns = prior.rules.map((rule, index) => columnOf(people, index, rule.isConstruction));
  const own = columns.map(spreadOf);
  const rules = prior.rules.map((rule, index): RuleEstimate => {
    const mates = partner[index] === null ? [index] : [index, partner[index]!.index];
    const told = mates.map((mate) => own[mate]!).filter(({ people: count, sd }) => count >= fewestOfRule && sd > 0);
    const base = { id: rule.id, people: own[index]!.people, priorMean: rule.mean, priorSd: rule.sd };
    if (told.length === 0) {
      return { ...base, ownMiddle: null, ownSd: null, mean: rule.mean, sd: rule.sd, isHeld: false };
    }
    const ownSd = Math.sqrt(meanOf(told.map(({ sd }) => sd ** 2)));
    const held = Math.min(mostRatio * rule.sd, Math.max(rule.sd / mostRatio, ownSd));
    const count = meanOf(told.map(({ people: n }) => n));
    const weight = count / (count + priorPeople);
    // A rule that changes its sign in the mirror has its middle at nothing.
    const isOdd = partner[index]?.index === index && partner[index].sign < 0;
    const middles = mates.map((mate, at) => (at === 0 ? 1 : partner[index]!.sign) * own[mate]!.middle);
    const middle = isOdd ? 0 : meanOf(middles.filter(Number.isFinite));
    return {
      ...base,
      ownMiddle: own[index]!.people < fewestOfRule ? null : own[index]!.rawMiddle,
      ownSd,
      mean: rule.isConstruction ? rule.mean : (1 - weight) * rule.mean + weight * middle,
      sd: Math.sqrt((1 - weight) * rule.sd ** 2 + weight * held ** 2),
      isHeld: held !== ownSd,
    };
  });
  const standardised = columns.map((column, index) => standardise(column, own[index]!));
  const found = asCorrelation(completed(pairwiseCorrelation(standardised, fewestOfRule), prior.correlation), p);
  const even = asCorrelation(mirroredAlike(found, partner, p), p);
  const weight = people.length / (people.length + priorPeople);
  const covariance = new Float64Array(p * p);
  for (let i = 0; i < p; i++)
    for (let j = 0; j < p; j++) {
      const mixed = (1 - weight) * prior.correlation[i * p + j]! + weight * even[i * p + j]!;
      covariance[i * p + j] = mixed * rules[i]!.sd * rules[j]!.sd;
    }
  return { rules, covariance, mean: Float64Array.from(rules, ({ mean }) => mean) };
}

/** As a file holds them: lower triangle, six digits. */
export function normsFrom(estimate: NormsEstimate, heading: Omit<Norms, 'residuals' | 'mean' | 'covariance'>): Norms {
  const { rules, mean, covariance } = estimate;
  const p = rules.length;
  return {
    ...heading,
    residuals: rules.map(({ id }) => id),
    mean: Array.from(mean, sixDigits),
    covariance: rules.flatMap((_, i) => Array.from({ length: i + 1 }, (__, j) => sixDigits(covariance[i * p + j]!))),
  };
}

/** A figure of the norms: residuals as they are, and about what each assessor always does where that is no target. */
interface Column {
  readonly values: Float64Array;
  readonly rawMiddle: number;
}

interface Spread {
  readonly people: number;
  readonly middle: number;
  /** Before anything was taken off. */
  readonly rawMiddle: number;
  readonly sd: number;
}

function columnOf(people: readonly MarkedPerson[], index: number, isConstruction: boolean): Column {
  const values = Float64Array.from(people, ({ residuals }) => residuals[index]!);
  const rawMiddle = middleOf(values);
  if (!isConstruction) return { values, rawMiddle };
  const byAssessor = new Map<string | null, number[]>();
  people.forEach(({ assessor }, person) => {
    if (Number.isNaN(values[person]!)) return;
    byAssessor.set(assessor, [...(byAssessor.get(assessor) ?? []), person]);
  });
  for (const [assessor, persons] of byAssessor) {
    const own = Float64Array.from(persons, (person) => values[person]!);
    const always = assessor === null || persons.length < fewestOfAssessor ? rawMiddle : middleOf(own);
    for (const person of persons) values[person]! -= always;
  }
  return { values, rawMiddle };
}

function spreadOf({ values, rawMiddle }: Column): Spread {
  const known = values.filter((value) => !Number.isNaN(value));
  const first = robustScale(known);
  const middle = middleOf(known);
  const near = known.filter((value) => Math.abs(value - middle) <= offFromSd * first);
  return { people: known.length, middle, rawMiddle, sd: first > 0 ? robustScale(near) : Number.NaN };
}

function standardise({ values }: Column, { middle, sd }: Spread): Float64Array {
  return values.map((value) => (sd > 0 ? (value - middle) / sd : Number.NaN));
}

function middleOf(values: Float64Array): number {
  const known = values.filter((value) => !Number.isNaN(value));
  return median(known, known.length);
}

/** Pairs that too few people have are the prior's. */
function completed(found: Float64Array, prior: Float64Array): Float64Array {
  return found.map((value, at) => (Number.isNaN(value) ? prior[at]! : value));
}

type Partner = { readonly index: number; readonly sign: 1 | -1 } | null;

function partnersOf(rules: readonly PriorRule[], mirrors: ReadonlyMap<string, RuleMirror>): Partner[] {
  return rules.map(({ id }) => {
    const mirror = mirrors.get(id);
    const index = mirror === undefined ? -1 : rules.findIndex((rule) => rule.id === mirror.rule);
    return index < 0 ? null : { index, sign: mirror!.sign };
  });
}

/** The mean of a matrix and its mirror image. */
function mirroredAlike(matrix: Float64Array, partner: readonly Partner[], p: number): Float64Array {
  return matrix.map((value, at) => {
    const [a, b] = [partner[Math.floor(at / p)] ?? null, partner[at % p] ?? null];
    if (a === null || b === null) return value;
    return (value + a.sign * b.sign * matrix[a.index * p + b.index]!) / 2;
  });
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function sixDigits(value: number): number {
  return Number(value.toPrecision(6)) + 0;
}
