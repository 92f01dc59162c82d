import { readFileSync } from 'node:fs';
import { parseSession } from '../../core/session/parse-session.ts';
import { emptySession, type Session } from '../../core/session/session.ts';
import { sha256Of } from '../../node/sha256.ts';
import type { SessionSaid } from './trial-result.ts';

export interface SessionBeside {
  readonly session: Session;
  /** Null where no session lies beside the trial. */
  readonly sha256: string | null;
  /** What is wrong with it: then the trial is checked without. */
  readonly fault: string | null;
}

/** Where a trial's session is looked for: `standing.session.json` beside `standing.c3d`. */
export function sessionPathOf(trialPath: string): string {
  return `${trialPath.replace(/\.c3d$/i, '')}.session.json`;
}

/** Reads it at once: it runs in a thread of its own, where waiting costs more than reading. */
export function readSessionBeside(trialPath: string): SessionBeside {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(sessionPathOf(trialPath));
  } catch (error) {
    const isMissing = error instanceof Error && 'code' in error && error.code === 'ENOENT';
    return { session: emptySession, sha256: null, fault: isMissing ? null : 'it cannot be read' };
  }
  const sha256 = sha256Of(bytes);
  try {
    return { session: parseSession(new TextDecoder('utf-8', { fatal: true }).decode(bytes)), sha256, fault: null };
  } catch (error) {
    // The message quotes what was found, which may be a name: only the place is kept.
    const place = error instanceof Error && 'pointer' in error ? ` at ${error.pointer}` : '';
    return { session: emptySession, sha256, fault: `it is refused${place}` };
  }
}

/** What an audit keeps of a session. */
export function saidBy({ subject, visit, facts }: Session): SessionSaid {
  const recorded = (name: string, isRecorded: boolean): string[] => (isRecorded ? [name] : []);
  const bySide = ({ right, left }: { right: number | null; left: number | null }) => right !== null || left !== null;
  return {
    ...visit,
    subject: subject.code,
    ageYears: subject.ageYears,
    sex: subject.sex,
    facts: [
      ...new Set([
        ...facts.contractures.map(({ joint }) => `contracture.${joint}`),
        ...facts.variants.map(({ id }) => `variant.${id}`),
        ...recorded('prosthesis', facts.prosthesis.length > 0),
        ...recorded('orthosis', facts.orthosis.length > 0),
        ...recorded('block', facts.block !== null),
        ...recorded('heel-raise', bySide(facts.heelRaiseMm)),
        ...recorded('leg-length-difference', (facts.legLengthDifferenceMm ?? 0) !== 0),
        ...recorded('cannot-stand-straight', facts.cannotStandStraight),
        ...recorded('supported', facts.supported),
      ]),
    ].sort(),
  };
}
