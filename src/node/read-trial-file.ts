import { closeSync, fstatSync, openSync, readFileSync } from 'node:fs';
import { describeSystemError } from './describe-system-error.ts';
import { InputError } from './input-error.ts';
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

/**
 * The same at once, for a thread that has nothing else to do: waiting for each file costs as much as checking it.
 * @throws {InputError} as readTrialFile, and for what is no ordinary file, such as a pipe.
 */
export function readTrialFileAtOnce(path: string): TrialFile {
  const bytes = readAtOnce(path);
  return { bytes, sha256: sha256Of(bytes) };
}

function readAtOnce(path: string): Uint8Array {
  try {
    const descriptor = openSync(path, 'r');
    try {
      const status = fstatSync(descriptor);
      if (!status.isFile())
        throw new InputError('Cannot read the trial: it is not an ordinary file', 'save it to disk and name that file');
      if (status.size > capBytes)
        throw new InputError(
          `Cannot read the trial: it holds more than ${capBytes >> 20} MB, the most that is read`,
          'check that it is the file you mean',
        );
      return readFileSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
  } catch (error) {
    throw error instanceof InputError ? error : describeSystemError('Cannot read the trial', error);
  }
}
