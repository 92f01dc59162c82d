import { InputError } from './input-error.ts';
import { readCapped } from './read-capped.ts';
import { sha256Of } from './sha256.ts';

/** Far above any marker set or session written by people. */
const capBytes = 1 << 20;

export interface TextFile {
  readonly text: string;
  /** Of the bytes as stored, lower-case hexadecimal. */
  readonly sha256: string;
}

/**
 * Reads a small text file in UTF-8, with or without a byte order mark.
 * @throws {InputError} where it cannot be read, is over 1 MB or is not UTF-8.
 */
export async function readTextFile(path: string, what: string): Promise<TextFile> {
  const bytes = await readCapped(path, capBytes, what);
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), sha256: sha256Of(bytes) };
  } catch (error) {
    throw new InputError(`Cannot read ${what}: it is not text in UTF-8`, 'save it as UTF-8', { cause: error });
  }
}
