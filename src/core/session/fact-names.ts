import type { Side } from '../rule-kinds/rule-kind.ts';
import type { Session } from './session.ts';

/**
 * Whether a fact that rules may name (`contracture.knee`, `block`, `supported`) is recorded, for one side or, with
 * null, for any.
 */
export function isRecorded(session: Session, fact: string, side: Side | null): boolean {
  const { facts } = session;
  const onSide = (recorded: Side): boolean => side === null || recorded === side;
  if (fact.startsWith('contracture.')) {
    return facts.contractures.some((item) => `contracture.${item.joint}` === fact && onSide(item.side));
  }
  switch (fact) {
    case 'block':
      return facts.block !== null && onSide(facts.block.side);
    case 'prosthesis':
      return facts.prosthesis.some(onSide);
    case 'orthosis':
      return facts.orthosis.some(onSide);
    case 'cannot-stand-straight':
      return facts.cannotStandStraight;
    case 'supported':
      return facts.supported;
    case 'leg-length-difference':
      return facts.legLengthDifferenceMm !== null && facts.legLengthDifferenceMm !== 0;
    default:
      return false;
  }
}

/** Whether a variant is recorded for a side (or, with null, for any); one without a side counts for both. */
export function hasVariant(session: Session, id: string, side: Side | null): boolean {
  return session.facts.variants.some(
    (variant) => variant.id === id && (side === null || variant.side === null || variant.side === side),
  );
}
