import { writeC3d } from '../../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../../src/core/check-trial.ts';
import type { Norms } from '../../src/core/decision/norms.ts';
import type { Vec3 } from '../../src/core/geometry/vector.ts';
import type { LoadedMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import type { Move } from '../../src/core/moves/move.ts';
import type { Session } from '../../src/core/session/session.ts';
import { stillContents } from '../support/still-trial.ts';

/** What the tool says of a person: exactly what a user is told, from the bytes of a trial. */
export interface Findings {
  readonly flagged: boolean;
  /** Markers with a distance, in the order of the steps. */
  readonly steps: readonly Step[];
  /** What is said of exchanged labels. */
  readonly relabels: readonly string[];
  readonly failing: readonly string[];
  readonly standAgain: boolean;
}

export interface Step {
  readonly marker: string;
  readonly probability: number | null;
  /** From where the marker is to where it is expected; body axes (forward, left, up), mm. */
  readonly mm: Vec3;
}

export function findingsOf(
  marked: ReadonlyMap<string, Vec3>,
  set: LoadedMarkerSet,
  norms: Norms,
  session: Session,
): Findings {
  const bytes = writeC3d(stillContents(marked, { set }));
  const report = checkTrial(bytes, set, session, { path: 'trial.c3d', sha256: '0'.repeat(64) }, norms);
  return {
    flagged: report.verdict !== 'ready',
    steps: report.moves.flatMap(stepOf),
    relabels: report.moves.filter(({ action }) => action === 'relabel').map(({ instruction }) => instruction),
    failing: report.rules.filter(({ status }) => status === 'fail').map(({ id }) => id),
    standAgain: report.moves.some(({ action }) => action === 'stand-again'),
  };
}

function stepOf({ marker, mm, probability }: Move): Step[] {
  if (marker === undefined || mm === undefined) return [];
  const left = 'left' in mm ? mm.left : (marker.startsWith('R_') ? -1 : 1) * mm.outward;
  return [{ marker, probability, mm: [mm.forward, left, mm.up] }];
}
