import type { CheckEngine, Engine } from '../../src/cli/engine.ts';
import { NormsError } from '../../src/core/decision/norms-error.ts';
import { inspectTrial } from '../../src/core/inspect-trial.ts';
import { MarkerSetError } from '../../src/core/marker-set/marker-set-error.ts';
import type { Report } from '../../src/core/report/report.ts';
import { SessionError } from '../../src/core/session/parse-session.ts';
import { emptySession } from '../../src/core/session/session.ts';
import { buildReport } from '../core/report/build-report.ts';

type Planned = Partial<Report> | ((source: Parameters<CheckEngine['checkTrial']>[3]) => Partial<Report>);

/**
 * An engine that answers each trial with the report planned for its bytes as text ("ready", "adjust"), so that the
 * command line is tested apart from what the rules find. Records what it was asked.
 */
export function plannedEngine(plans: Record<string, Planned> = {}) {
  const asked: { session: unknown; frames: unknown; markerSet: unknown }[] = [];
  const engine: Engine = {
    check: async () => ({
      emptySession,
      parseMarkerSet(text, sha256) {
        if (text.includes('wrong')) throw new MarkerSetError('/rules/3', 'expected a number above 0; correct it.');
        return { text, sha256 } as never;
      },
      parseSession(text) {
        if (text.includes('wrong')) throw new SessionError('/facts', 'session: /facts is "x", expected an object.');
        return { ...emptySession, subject: { ...emptySession.subject, code: text.trim() } };
      },
      parseNorms() {
        throw new NormsError('/', 'norms: they were made for another set; build norms for this one.');
      },
      checkTrial(bytes, markerSet, session, source) {
        asked.push({ session, frames: source.frames, markerSet });
        const name = new TextDecoder().decode(bytes);
        const plan = plans[name] ?? { verdict: 'not-assessable', rules: [] };
        const changes = typeof plan === 'function' ? plan(source) : plan;
        const report = buildReport(changes);
        return { ...report, trial: { ...report.trial, path: source.path, sha256: source.sha256 } };
      },
    }),
    inspect: async () => ({ inspectTrial }),
  };
  return { engine, asked };
}
