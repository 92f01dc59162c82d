import type { MarkerSet } from '../core/marker-set/marker-set.ts';
import { ownName } from '../core/report/own-name.ts';
import type { Session } from '../core/session/session.ts';
import { type StoodTrial, standTrial } from '../core/stand-trial.ts';
import { InputError } from '../node/input-error.ts';
import { readTrialFile, type TrialFile } from '../node/read-trial-file.ts';
import { UsageError } from './usage-error.ts';

/**
 * Reads a trial that a command cannot do without.
 * @throws {UsageError} with the file's name, where it cannot be read
 */
export async function readNeededTrial(path: string): Promise<TrialFile> {
  try {
    return await readTrialFile(path);
  } catch (error) {
    if (error instanceof InputError) throw new UsageError(`${ownName(path)}: ${error.message}`, { cause: error });
    throw error;
  }
}

/** Whoever stands in a trial. @throws {UsageError} with the first problem, where nobody does */
export function standIn(path: string, bytes: Uint8Array, set: MarkerSet, session: Session): StoodTrial {
  const stood = standTrial(bytes, set, session, null);
  if ('body' in stood) return stood;
  const { message = 'holds nobody standing.', remedy = '' } = stood.problems[0] ?? {};
  throw new UsageError(`${ownName(path)}: ${message} ${remedy}`.trim());
}
