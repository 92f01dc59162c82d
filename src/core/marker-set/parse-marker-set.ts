import { validateMarkerSet } from '../schemas/compiled/marker-set.js';
import { schemaSentence } from '../schemas/schema-sentence.ts';
import { checkReferences } from './check-references.ts';
import { expandMarkerSet } from './expand-marker-set.ts';
import type { MarkerSet } from './marker-set.ts';
import { MarkerSetError } from './marker-set-error.ts';
import type { WrittenMarkerSet } from './written-marker-set.ts';

/** A marker set that passed every check, with the hash of the bytes it came from. */
export interface LoadedMarkerSet extends MarkerSet {
  readonly sha256: string;
}

const maxCharacters = 1_000_000;

/**
 * Reads a marker-set file.
 * @throws MarkerSetError naming the JSON pointer of the first fault, in one sentence.
 */
export function parseMarkerSet(text: string, sha256: string): LoadedMarkerSet {
  if (text.length > maxCharacters) {
    throw new MarkerSetError('/', `marker set: the file holds ${text.length} characters, expected at most 1,000,000.`);
  }
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (cause) {
    throw new MarkerSetError(
      '/',
      `marker set: this is not valid JSON (${(cause as Error).message}); correct it there.`,
    );
  }
  if (!validateMarkerSet(data)) {
    const { pointer, message } = schemaSentence('marker set', data, validateMarkerSet.errors![0]!);
    throw new MarkerSetError(pointer, message);
  }
  const written = data as WrittenMarkerSet;
  const set = expandMarkerSet(written);
  checkReferences(written, set);
  return { ...set, sha256 };
}
