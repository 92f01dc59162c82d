import type { Inspection } from '../core/inspect-trial.ts';
import type { LoadedMarkerSet } from '../core/marker-set/parse-marker-set.ts';
import type { TrialSource } from '../core/report/assemble-report.ts';
import type { Report } from '../core/report/report.ts';
import type { Session } from '../core/session/session.ts';

export interface CheckEngine {
  parseMarkerSet(text: string, sha256: string): LoadedMarkerSet;
  parseSession(text: string): Session;
  readonly emptySession: Session;
  checkTrial(bytes: Uint8Array, markerSet: LoadedMarkerSet, session: Session, source: TrialSource): Report;
}

export interface InspectEngine {
  inspectTrial(bytes: Uint8Array, path: string): Inspection;
}

/** What the commands run on, loaded when a command asks for it: `inspect` never waits for the rules. */
export interface Engine {
  check(): Promise<CheckEngine>;
  inspect(): Promise<InspectEngine>;
}

export const shippedEngine: Engine = {
  async check() {
    const [{ checkTrial }, { parseMarkerSet }, { parseSession }, { emptySession }] = await Promise.all([
      import('../core/check-trial.ts'),
      import('../core/marker-set/parse-marker-set.ts'),
      import('../core/session/parse-session.ts'),
      import('../core/session/session.ts'),
    ]);
    return { checkTrial, parseMarkerSet, parseSession, emptySession };
  },
  inspect: () => import('../core/inspect-trial.ts'),
};
