import { validateSession } from '../schemas/compiled/session.js';
import { schemaSentence } from '../schemas/schema-sentence.ts';
import { emptySession, type Measurement, type PatientFacts, type Session } from './session.ts';

/** A session file that cannot be used: one sentence with the JSON pointer of the place. */
export class SessionError extends Error {
  readonly pointer: string;

  constructor(pointer: string, message: string) {
    super(message);
    this.name = 'SessionError';
    this.pointer = pointer;
  }
}

const maxCharacters = 1_000_000;

/**
 * Reads a session file; what it leaves out counts as not recorded.
 * @throws SessionError naming the JSON pointer of the first fault, in one sentence.
 */
export function parseSession(text: string): Session {
  if (text.length > maxCharacters) {
    throw new SessionError('/', `session: the file holds ${text.length} characters, expected at most 1,000,000.`);
  }
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (cause) {
    throw new SessionError('/', `session: this is not valid JSON (${(cause as Error).message}); correct it there.`);
  }
  if (!validateSession(data)) {
    const { pointer, message } = schemaSentence('session', data, validateSession.errors![0]!);
    throw new SessionError(pointer, message);
  }
  const written = data as {
    subject?: Partial<Session['subject']>;
    measurements?: (Omit<Measurement, 'side'> & { side?: 'right' | 'left' })[];
    facts?: Partial<PatientFacts> & { variants?: { id: string; side?: 'right' | 'left' }[] };
    accepted?: Session['accepted'];
    confirmed?: Session['confirmed'];
  };
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
