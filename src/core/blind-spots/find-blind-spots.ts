import { modelBody } from '../decision/body-model.ts';
import type { Norms } from '../decision/norms.ts';
import { measureSensitivity } from '../decision/sensitivity.ts';
import { rulesWithNorms } from '../decision/well-marked.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { isAssessed, type RuleOutcome } from '../rules/assess-rules.ts';
import { displacer } from './displaced-body.ts';
import { type Displacement, displacementsOf, turnsOfTheBody } from './displacement.ts';
import { type FailsFrom, failsFrom } from './fails-from.ts';
import { namedFrom } from './named-from.ts';
import { type Opener, openersOf } from './openers.ts';

/** One way of being off, and from what size on the checks see it. */
export interface Visibility extends Pick<Displacement, 'how' | 'markers' | 'toward'> {
  /** Smallest size at which a rule fails; null: none does up to 60 mm. */
  readonly fails: FailsFrom | null;
  /** Smallest size, mm, at which a rule fails and the marker is named first on nine in ten people; null: none. */
  readonly namedFromMm: number | null;
  /** What would open it, where it is a blind spot. */
  readonly openers: readonly Opener[];
}

/**
 * A displacement that no rule sees up to this size is called a blind spot: twice what experienced examiners differ by
 * (Della Croce 1999, 2005: up to 15 to 20 mm).
 */
export const blindFromMm = 40;

export function isBlind({ fails }: Pick<Visibility, 'fails'>): boolean {
  return fails === null || fails.mm > blindFromMm;
}

/**
 * Every way in which a marker can be off, alone, with the markers set on it, or together with the other side, and from
 * what size on a rule fails and the marker is named. Computed on one body, by moving its markers.
 * @param norms null: from what size on a marker is named is not known
 */
export function findBlindSpots(
  body: StandingBody,
  outcomes: readonly RuleOutcome[],
  norms: Norms | null,
): Visibility[] {
  const assessed = outcomes.filter(isAssessed);
  const passing = assessed.filter(({ status }) => status !== 'fail');
  const model = norms === null ? null : modelBody(body, rulesWithNorms(assessed, norms), norms, new Set());
  const naming = model === null ? null : namedFrom(model);
  const place = displacer(body);
  const displacements = [...displacementsOf(measureSensitivity(body, assessed)), ...turnsOfTheBody(body)];
  return displacements.map((displacement) => {
    const fails = failsFrom(place, displacement, passing);
    const named = fails === null || naming === null || displacement.columns.length === 0 ? null : naming(displacement);
    const { how, markers, toward } = displacement;
    return {
      how,
      markers,
      toward,
      fails,
      namedFromMm: named === null || fails === null ? null : Math.max(named, Math.ceil(fails.mm)),
      openers: isBlind({ fails }) ? openersOf(body, outcomes, displacement, place) : [],
    };
  });
}
