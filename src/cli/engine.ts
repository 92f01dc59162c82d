import type { Norms } from '../core/decision/norms.ts';
import type { Inspection } from '../core/inspect-trial.ts';
import type { LoadedMarkerSet } from '../core/marker-set/parse-marker-set.ts';
import type { TrialSource } from '../core/report/assemble-report.ts';
import type { Report } from '../core/report/report.ts';
import { emptySession, type Session } from '../core/session/session.ts';
import { expandedMarkerSet } from '../node/expanded-marker-set.ts';

export interface CheckEngine {
  /** @param sha256 of the bytes that `text` was read from */
  parseMarkerSet(text: string, sha256: string): LoadedMarkerSet | Promise<LoadedMarkerSet>;
  parseSession(text: string): Session | Promise<Session>;
  readonly emptySession: Session;
  /** @throws where the norms are for another set */
  parseNorms(text: string, markerSet: LoadedMarkerSet): Norms | Promise<Norms>;
  checkTrial(
    bytes: Uint8Array,
    markerSet: LoadedMarkerSet,
    session: Session,
    source: TrialSource,
    norms: Norms | null,
  ): Report;
}

export interface InspectEngine {
  inspectTrial(bytes: Uint8Array, path: string): Inspection;
}

/** What the commands run on. */
export interface Engine {
  check(): Promise<CheckEngine>;
  inspect(): Promise<InspectEngine>;
}

/**
 * The validators are larger than all the rest, so each is a file of its own in the build (scripts/build.js), loaded
 * where a file is to be validated and not before.
 */
export const shippedEngine: Engine = {
  async check() {
    const { checkTrial } = await import('../core/check-trial.ts');
    return {
      checkTrial,
      emptySession,
      async parseMarkerSet(text, sha256) {
        const expanded = await expandedMarkerSet(sha256);
        if (expanded) return expanded;
        const { parseMarkerSet } = await import('../core/marker-set/parse-marker-set.ts');
        return parseMarkerSet(text, sha256);
      },
      async parseNorms(text, markerSet) {
        const { parseNorms } = await import('../core/decision/parse-norms.ts');
        return parseNorms(text, markerSet);
      },
      async parseSession(text) {
        const { parseSession } = await import('../core/session/parse-session.ts');
        return parseSession(text);
      },
    };
  },
  inspect: () => import('../core/inspect-trial.ts'),
};
