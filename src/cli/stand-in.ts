import type { MarkerSet } from '../core/marker-set/marker-set.ts';
import { ownName } from '../core/report/own-name.ts';
import type { Session } from '../core/session/session.ts';
import { type StoodTrial, standTrial } from '../core/stand-trial.ts';
import { UsageError } from './usage-error.ts';

/** Whoever stands in a trial. @throws UsageError with the first problem, where nobody does */
export function standIn(path: string, bytes: Uint8Array, set: MarkerSet, session: Session): StoodTrial {
  const stood = standTrial(bytes, set, session, null);
  if ('body' in stood) return stood;
  const { message = 'holds nobody standing.', remedy = '' } = stood.problems[0] ?? {};
  throw new UsageError(`${ownName(path)}: ${message} ${remedy}`.trim());
}
