import { validateSession } from '../schemas/compiled/session.js';
import { readValidated } from '../schemas/read-validated.ts';
import { checkSession } from './check-session.ts';
import { emptySession, type Session } from './session.ts';
import { SessionError } from './session-error.ts';
import type { WrittenSession } from './written-session.ts';

export { SessionError };

/**
 * Reads a session file (`shared/schemas/session.schema.json`) of at most 1,000,000 bytes; what it leaves out counts as
 * not recorded.
 * @throws SessionError naming the JSON pointer of the first fault, in one sentence.
 */
export function parseSession(text: string): Session {
  const read = readValidated('session', text, validateSession);
  if ('fault' in read) throw new SessionError(read.fault.pointer, read.fault.message);
  const written = read.data as WrittenSession;
  checkSession(written);
  const facts = written.facts ?? {};
  return {
    subject: { ...emptySession.subject, ...written.subject },
    measurements: (written.measurements ?? []).map((reading) => ({ ...reading, side: reading.side ?? null })),
    facts: {
      ...emptySession.facts,
      ...facts,
      kneeTurnDeg: { ...emptySession.facts.kneeTurnDeg, ...facts.kneeTurnDeg },
      tibialTorsionDeg: { ...emptySession.facts.tibialTorsionDeg, ...facts.tibialTorsionDeg },
      heelRaiseMm: { ...emptySession.facts.heelRaiseMm, ...facts.heelRaiseMm },
      heelSoleDifferenceMm: { ...emptySession.facts.heelSoleDifferenceMm, ...facts.heelSoleDifferenceMm },
      variants: (facts.variants ?? []).map((variant) => ({ id: variant.id, side: variant.side ?? null })),
    },
    accepted: written.accepted ?? [],
    confirmed: written.confirmed ?? [],
  };
}
