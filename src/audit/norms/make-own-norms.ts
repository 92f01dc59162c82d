import type { Norms } from '../../core/decision/norms.ts';
import { choleskyInPlace, solveLowerInPlace } from '../../core/geometry/cholesky.ts';
import { median } from '../../core/geometry/statistics.ts';
import type { LoadedMarkerSet } from '../../core/marker-set/parse-marker-set.ts';
import {
  estimateNorms,
  fewestOfRule,
  type NormsEstimate,
  normsFrom,
  type Prior,
  priorPeople,
  type RuleEstimate,
} from '../../core/own-norms/estimate-norms.ts';
import { mirrorOfRules } from '../../core/own-norms/mirror-of-rules.ts';
import { priorFromNorms } from '../../core/own-norms/prior-from-norms.ts';
import { bodyFromPositions } from '../../core/pose/body-from-positions.ts';
import { ruleStem } from '../../core/rules/expected-rules.ts';
import type { Session } from '../../core/session/session.ts';
import { InputError } from '../../node/input-error.ts';
import { RuleWords } from '../analysis/rule-words.ts';
import type { RowSource } from '../parts/part-file.ts';
import { summarizeSet } from '../parts/set-summary.ts';
import { type GatheredPeople, gatherPeople } from './gather-people.ts';
import { type ShiftedTarget, shiftedTargets } from './shifted-targets.ts';

/** A laboratory's own norms, and what they came from. */
export interface OwnNorms {
  readonly norms: Norms;
  readonly base: { readonly name: string; readonly version: string };
  readonly gathered: GatheredPeople;
  readonly rules: readonly (RuleEstimate & { readonly unit: string; readonly title: string })[];
  readonly shifted: readonly ShiftedTarget[];
  /**
   * How far this laboratory's people lie from what is expected, squared, for each rule: the middle one of them, by the
   * base and by the new norms. About 1 where the norms fit; null where too few have enough rules in common.
   */
  readonly misfit: { readonly people: number; readonly before: number; readonly after: number } | null;
}

export interface OwnNormsInputs {
  readonly set: LoadedMarkerSet;
  /** Norms to be drawn toward. */
  readonly base: Norms;
  /** Where the markers of an average adult stand, by label; mm, forward, left, up. */
  readonly adult: ReadonlyMap<string, [number, number, number]>;
  /** What is recorded of that adult: the stature. */
  readonly adultSession: Session;
  readonly name: string;
  readonly version: string;
}

/** Fewer people than this say less of a laboratory than the norms that ship. */
export const fewestPeople = 60;

/**
 * The laboratory's own norms from the rows of an audit.
 * @throws {InputError} where there are too few people, or the set's markers are not those of the average adult
 */
export async function makeOwnNorms(source: RowSource, inputs: OwnNormsInputs): Promise<OwnNorms> {
  const { set, base, adult, adultSession, name, version } = inputs;
  const body = bodyFromPositions(set, adultSession, (label) => adult.get(label));
  if (body === null)
    throw new InputError(
      `${set.name}: the markers of the average adult do not fit this set, so its rules cannot be followed`,
      "keep the anatomical labels in the set, with the laboratory's own as aliases",
    );
  const prior = priorFromNorms(base, set, body, adultSession);
  const definitions = prior.rules.map(({ id }) => set.rules.find((rule) => rule.id === id)!);
  const unitOf = new Map<string, string>(definitions.map(({ id, unit }) => [id, unit]));
  const ids = definitions.map(({ id }) => id);
  const gathered = await gatherPeople(source, set.sha256, ids, (rule) => unitOf.get(rule), base.bodyHeightMm);
  const { people } = gathered;
  if (people.length < fewestPeople) throw tooFew(gathered);
  const estimate = estimateNorms(people, prior, mirrorOfRules(set, adultSession, adult));
  const words = new RuleWords([summarizeSet(set)]);
  const named = definitions.map((rule) => ({
    id: rule.id,
    stem: ruleStem(rule),
    isConstruction: rule.basis === 'construction',
  }));
  return {
    norms: normsFrom(estimate, {
      name,
      version,
      origin: 'laboratory',
      markerSet: { name: set.name, version: set.version, sha256: set.sha256 },
      people: people.length,
      includesScatter: true,
      bodyHeightMm: base.bodyHeightMm,
      sources: sourcesOf(gathered, base),
    }),
    base: { name: base.name, version: base.version },
    gathered,
    rules: estimate.rules.map((rule, index) => ({
      ...rule,
      unit: definitions[index]!.unit,
      title: definitions[index]!.title,
    })),
    shifted: shiftedTargets(people, named, words),
    misfit: misfitOf(gathered, prior, estimate),
  };
}

function tooFew({ people, leftOut }: GatheredPeople): InputError {
  const others = Object.values(leftOut).reduce((sum, count) => sum + count, 0);
  return new InputError(
    `found ${people.length} people who can be used (${others} recordings were left out: ${leftOut['no-subject']} without a subject code, ${leftOut.facts} with recorded facts, ${leftOut['same-person']} of the same people, ${leftOut['other-set']} by another marker set, ${leftOut['not-assessable'] + leftOut.unreadable} not judged), expected ${fewestPeople} or more`,
    'audit more trials, or use the norms that ship until there are',
  );
}

function sourcesOf({ people, firstDay, lastDay, tools }: GatheredPeople, base: Norms): string[] {
  const days = firstDay === null ? 'days not recorded' : `${firstDay} to ${lastDay}`;
  return [
    `${people.length} people of this laboratory, one recording each, ${days}; judged by setsquare ${tools.join(', ')}`,
    `Spread by Qn, correlation pair by pair, drawn toward ${base.name} ${base.version} as if that were ${priorPeople} people; a rule with fewer than ${fewestOfRule} people keeps what it had`,
    'The middle of a construction rule is the target of the protocol and was not learnt',
  ];
}

/** Rules that nearly everybody has, so that everybody is measured by the same. */
const heldBy = 0.9;

function misfitOf({ people }: GatheredPeople, prior: Prior, estimate: NormsEstimate): OwnNorms['misfit'] {
  const p = prior.rules.length;
  const common = prior.rules.flatMap((_, index) => {
    const have = people.filter(({ residuals }) => !Number.isNaN(residuals[index]!)).length;
    return have >= heldBy * people.length ? [index] : [];
  });
  const whole = people.filter(({ residuals }) => common.every((index) => !Number.isNaN(residuals[index]!)));
  if (common.length === 0 || whole.length < fewestOfRule) return null;
  const before = middleDistance(
    whole.map(({ residuals }) => common.map((index) => residuals[index]! - prior.rules[index]!.mean)),
    common.map((a) => common.map((b) => prior.correlation[a * p + b]! * prior.rules[a]!.sd * prior.rules[b]!.sd)),
  );
  const after = middleDistance(
    whole.map(({ residuals }) => common.map((index) => residuals[index]! - estimate.mean[index]!)),
    common.map((a) => common.map((b) => estimate.covariance[a * p + b]!)),
  );
  return before === null || after === null ? null : { people: whole.length, before, after };
}

/** Small beside every spread; rules that repeat each other would make the matrix singular. */
const jitter = 1e-3;

/** Middle of the squared Mahalanobis distances over the number of rules. */
function middleDistance(deviations: readonly (readonly number[])[], covariance: readonly (readonly number[])[]) {
  const k = covariance.length;
  const lower = Float64Array.from({ length: k * k }, (_, at) => {
    const [i, j] = [Math.floor(at / k), at % k];
    return covariance[i]![j]! * (i === j ? 1 + jitter : 1);
  });
  if (!choleskyInPlace(lower, k)) return null;
  const distances = Float64Array.from(deviations, (deviation) => {
    const whitened = Float64Array.from(deviation);
    solveLowerInPlace(lower, k, whitened);
    return whitened.reduce((sum, value) => sum + value ** 2, 0) / k;
  });
  return median(distances, distances.length);
}
