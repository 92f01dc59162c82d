import { displace } from '../../../sample-trials/plant-fault.ts';
import { seededRandom } from '../../../sample-trials/seeded-random.ts';
import type { Norms } from '../../../src/core/decision/norms.ts';
import type { MarkedPerson, Prior } from '../../../src/core/own-norms/estimate-norms.ts';
import { priorFromNorms } from '../../../src/core/own-norms/prior-from-norms.ts';
import { bodyFromPositions } from '../../../src/core/pose/body-from-positions.ts';
import { bodyHeightMm } from '../../../src/core/pose/body-height.ts';
import { ruleKinds } from '../../../src/core/rule-kinds/all-rule-kinds.ts';
import { assessRules, isAssessed } from '../../../src/core/rules/assess-rules.ts';
import { expectedRules } from '../../../src/core/rules/expected-rules.ts';
import { emptySession, type Session } from '../../../src/core/session/session.ts';
import { placedByHand, symmetricAdult } from '../../support/ordinary-people.ts';
import { normsOf, wands22 } from '../../support/shipped-marker-sets.ts';

export const norms: Norms = normsOf('lower-limb-wands-22');
/** 1.70 m, so that rules about stature are judged. */
export const session: Session = {
  ...emptySession,
  measurements: [{ measure: 'stature', side: null, value: 1700, unit: 'mm' }],
};
const adult = bodyFromPositions(wands22, session, (label) => symmetricAdult().get(label))!;
export const prior: Prior = priorFromNorms(norms, wands22, adult, session);

/** Somebody with markers put on by hand; what is done to them before is the caller's. */
export function markedPerson(
  seed: number,
  change: (positions: ReturnType<typeof placedByHand>) => ReturnType<typeof placedByHand> = (same) => same,
  assessor: string | null = null,
): MarkedPerson {
  const positions = change(placedByHand(seed));
  const body = bodyFromPositions(wands22, session, (label) => positions.get(label))!;
  const size = norms.bodyHeightMm / bodyHeightMm(body);
  const judged = new Map(
    assessRules(body, expectedRules(wands22, session), session)
      .filter(isAssessed)
      .map(({ rule, parameters }) => [
        rule.id,
        ruleKinds[rule.kind].residual(body.positions, parameters) * (rule.unit === 'mm' ? size : 1),
      ]),
  );
  return { residuals: Float64Array.from(prior.rules, ({ id }) => judged.get(id) ?? Number.NaN), assessor };
}

/** One marker 15 to 40 mm off, any marker and way. */
export function withFault(
  seed: number,
): (positions: ReturnType<typeof placedByHand>) => ReturnType<typeof placedByHand> {
  const random = seededRandom(seed);
  return (positions) => {
    const labels = [...positions.keys()];
    const label = labels[Math.floor(random.between(0, labels.length))]!;
    const way = (['forward', 'up', 'left'] as const)[Math.floor(random.between(0, 3))]!;
    const mm = random.between(15, 40) * (random.between(0, 1) < 0.5 ? -1 : 1);
    return displace(positions, label, { [way]: mm });
  };
}
