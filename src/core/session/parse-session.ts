import { validateSession } from '../schemas/compiled/session.js';
import { readValidated } from '../schemas/read-validated.ts';
import { checkSession } from './check-session.ts';
import { reasonInWords } from './reasons.ts';
import { type ConfirmedReading, emptySession, type Measurement, type Session } from './session.ts';
import { SessionError } from './session-error.ts';
import type { WrittenConfirmation, WrittenMeasurement, WrittenSession } from './written-session.ts';

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
    visit: { ...emptySession.visit, ...written.visit },
    measurements: (written.measurements ?? []).flatMap(readings),
    facts: {
      ...emptySession.facts,
      ...facts,
      kneeTurnDeg: { ...emptySession.facts.kneeTurnDeg, ...facts.kneeTurnDeg },
      tibialTorsionDeg: { ...emptySession.facts.tibialTorsionDeg, ...facts.tibialTorsionDeg },
      heelRaiseMm: { ...emptySession.facts.heelRaiseMm, ...facts.heelRaiseMm },
      heelSoleDifferenceMm: { ...emptySession.facts.heelSoleDifferenceMm, ...facts.heelSoleDifferenceMm },
      variants: (facts.variants ?? []).map((variant) => ({ id: variant.id, side: variant.side ?? null })),
    },
    accepted: (written.accepted ?? []).map(({ rule, by, on, ...why }) => ({
      rule,
      reason: reasonInWords(why),
      by,
      on,
    })),
    ...confirmations(written.confirmed ?? []),
    walkingTrials: written.walkingTrials ?? [],
  };
}

/** A reading and its repeats, one entry each. */
function readings({ value, repeats = [], side, ...rest }: WrittenMeasurement): Measurement[] {
  return [value, ...repeats].map((one) => ({ ...rest, side: side ?? null, value: one }));
}

function confirmations(
  written: readonly WrittenConfirmation[],
): Pick<Session, 'confirmed' | 'confirmedRules' | 'confirmedReadings'> {
  const settled = written.map(({ marker, rule, measure, side, by, on, ...why }) => {
    const reason = reasonInWords(why);
    return { marker, rule, measure, side: side ?? null, settled: { by, on, ...(reason === '' ? {} : { reason }) } };
  });
  return {
    confirmed: settled.flatMap((one) => (one.marker === undefined ? [] : [{ marker: one.marker, ...one.settled }])),
    confirmedRules: settled.flatMap((one) => (one.rule === undefined ? [] : [{ rule: one.rule, ...one.settled }])),
    confirmedReadings: settled.flatMap(({ measure, side, settled: by }): ConfirmedReading[] =>
      measure === undefined ? [] : [{ measure, side, ...by }],
    ),
  };
}
