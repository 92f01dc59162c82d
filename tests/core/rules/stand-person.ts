import { readFileSync } from 'node:fs';
import { type MarkerPositions, markerLabel, SIDES } from '../../../sample-trials/landmarks.ts';
import type { LegDescription, PersonDescription } from '../../../sample-trials/person-description.ts';
import { standingPerson } from '../../../sample-trials/standing-person.ts';
import type { RuleDefinition } from '../../../src/core/marker-set/marker-set.ts';
import { type LoadedMarkerSet, parseMarkerSet } from '../../../src/core/marker-set/parse-marker-set.ts';
import { standOnFloor } from '../../../src/core/pose/stand-on-floor.ts';
import type { StandingBody } from '../../../src/core/pose/standing-body.ts';
import { type AssessedRule, assessRules, isAssessed, type RuleOutcome } from '../../../src/core/rules/assess-rules.ts';
import { expectedRules } from '../../../src/core/rules/expected-rules.ts';
import { emptySession, type PatientFacts, type Session } from '../../../src/core/session/session.ts';

export function shippedSet(name = 'lower-limb-wands-22'): LoadedMarkerSet {
  const path = new URL(`../../../shared/marker-sets/${name}.json`, import.meta.url);
  return parseMarkerSet(readFileSync(path, 'utf8'), '0'.repeat(64));
}

const straightLeg: LegDescription = {
  kneeTurnDeg: 4,
  tibialTorsionDeg: 26,
  footProgressionDeg: 9,
  kneeFlexionDeg: 3,
  thighExtraMm: 0,
  shankExtraMm: 0,
  malleolusHeightExtraMm: 0,
  footForwardMm: 0,
  footSupinationDeg: 0,
};

/** An adult on whom every marker sits where the protocol wants it, both sides alike. */
export const adult: PersonDescription = {
  statureMm: 1750,
  sex: 'female',
  ageYears: 33,
  right: straightLeg,
  left: straightLeg,
  pelvicSlopeDeg: 12,
  trunkLeanDeg: -2,
  hipForwardMm: 58,
  sacralLeftMm: 0,
  markerRadiusMm: 7,
};

export function placedMarkers(person: PersonDescription = adult): MarkerPositions {
  return standingPerson(person).markers;
}

export function without(positions: MarkerPositions, ...labels: string[]): MarkerPositions {
  return new Map([...positions].filter(([label]) => !labels.includes(label)));
}

export function withoutMedialMarkers(positions: MarkerPositions): MarkerPositions {
  return without(positions, ...SIDES.flatMap((side) => [markerLabel(side, 'ME'), markerLabel(side, 'MM')]));
}

export function recording(facts: Partial<PatientFacts>): Session {
  return { ...emptySession, facts: { ...emptySession.facts, ...facts } };
}

export interface Standing {
  readonly set?: LoadedMarkerSet;
  readonly session?: Session;
  readonly restless?: boolean;
  /** Positions over equal parts of the window; none: perfectly still. */
  readonly parts?: readonly MarkerPositions[];
}

/** A body that stands exactly so: laboratory axes are the body's own (forward, left, up), the floor is at zero. */
export function stand(positions: MarkerPositions, given: Standing = {}): StandingBody {
  const set = given.set ?? shippedSet();
  const means = inSetOrder(set, positions);
  const seen = set.markers.map(({ label }) => (positions.has(label) ? 1 : 0));
  const body = standOnFloor(
    {
      averaged: {
        means,
        sdMm: new Float64Array(seen.length),
        visible: Float64Array.from(seen),
        jumps: new Int32Array(seen.length),
        parts: (given.parts ?? [positions, positions]).map((part) => inSetOrder(set, part)),
      },
      unit: 'mm',
      vertical: { axis: '+Z', up: [0, 0, 1], bodyHeight: 900, contradicts: null, unclear: false },
      facing: { forward: [1, 0, 0], left: [0, 1, 0], agreement: 1 },
      window: { first: 0, count: 200, swayMm: 0 },
      restless: given.restless ?? false,
      asked: false,
    },
    set,
    given.session ?? emptySession,
  );
  if (body === null) throw new RangeError('This test lays out nobody who stands.');
  return body;
}

function inSetOrder(set: LoadedMarkerSet, positions: MarkerPositions): Float64Array {
  return Float64Array.from(
    set.markers.flatMap(({ label }) => positions.get(label) ?? [Number.NaN, Number.NaN, Number.NaN]),
  );
}

/** All outcomes on a body that stands so, by rule id. */
export function assess(positions: MarkerPositions, given: Standing = {}): Map<string, RuleOutcome> {
  const session = given.session ?? emptySession;
  const body = stand(positions, given);
  const set = given.set ?? shippedSet();
  const outcomes = assessRules(body, expectedRules(set, session), session);
  return new Map(outcomes.map((outcome) => [outcome.rule.id, outcome]));
}

export function assessed(outcomes: ReadonlyMap<string, RuleOutcome>, id: string): AssessedRule {
  const outcome = outcomes.get(id);
  if (outcome === undefined) throw new RangeError(`There is no rule ${id}.`);
  if (!isAssessed(outcome)) throw new RangeError(`${id} was not assessed: ${outcome.reason}`);
  return outcome;
}

export function ruleOf(set: LoadedMarkerSet, id: string): RuleDefinition {
  const rule = set.rules.find((candidate) => candidate.id === id);
  if (rule === undefined) throw new RangeError(`There is no rule ${id}.`);
  return rule;
}

/** Allowed values of a rule that states them as such, not as a turn. */
export function allowedOf(rule: RuleDefinition) {
  if (!('allowed' in rule)) throw new RangeError(`${rule.id} states an allowed turn.`);
  return rule.allowed;
}
