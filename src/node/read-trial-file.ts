import { readCapped } from './read-capped.ts';
import { sha256Of } from './sha256.ts';

/** A minute of many markers and force plates stays far below this. */
const capBytes = 512 << 20;

export interface TrialFile {
  readonly bytes: Uint8Array;
  readonly sha256: string;
}

/**
 * Reads the bytes of a trial and their SHA-256.
 * @throws {InputError} where it cannot be read or is over 512 MB.
 */
export async function readTrialFile(path: string): Promise<TrialFile> {
  const bytes = await readCapped(path, capBytes, 'the trial');
  return { bytes, sha256: sha256Of(bytes) };
}
