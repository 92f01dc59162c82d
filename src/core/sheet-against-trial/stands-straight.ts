import type { StanceOutcome } from '../rules/assess-stance.ts';
import type { Session } from '../session/session.ts';

/** Why a height above the floor says nothing about stature; null where the patient stands straight on bare feet. */
export function whyNotStraight({ facts }: Session, stance: readonly StanceOutcome[]): string | null {
  if (facts.contractures.length > 0 || facts.cannotStandStraight) return 'the patient cannot stand straight';
  if (facts.supported) return 'the patient is supported';
  if (facts.block !== null || facts.prosthesis.length > 0) return 'the patient stands on a block or a prosthesis';
  const raised = [facts.heelRaiseMm, facts.heelSoleDifferenceMm].some(({ right, left }) => right || left);
  if (raised) return 'the heels are raised';
  return stance.some(({ status }) => status === 'fail' || status === 'expected')
    ? 'the patient does not stand straight'
    : null;
}
