import { validateMarkerSet } from '../schemas/compiled/marker-set.js';
import { readValidated } from '../schemas/read-validated.ts';
import { checkMarkerSet } from './check-marker-set.ts';
import { expandMarkerSet } from './expand-marker-set.ts';
import type { MarkerSet } from './marker-set.ts';
import { MarkerSetError } from './marker-set-error.ts';
import type { WrittenMarkerSet } from './written-marker-set.ts';

/** A marker set that passed every check, with the hash of the bytes it came from. */
export interface LoadedMarkerSet extends MarkerSet {
  readonly sha256: string;
}

/**
 * Reads a marker-set file (`shared/schemas/marker-set.schema.json`) of at most 1,000,000 bytes.
 * @throws MarkerSetError naming the JSON pointer of the first fault, in one sentence.
 */
export function parseMarkerSet(text: string, sha256: string): LoadedMarkerSet {
  const read = readValidated('marker set', text, validateMarkerSet);
  if ('fault' in read) throw new MarkerSetError(read.fault.pointer, read.fault.message);
  const written = read.data as WrittenMarkerSet;
  const set = expandMarkerSet(written);
  checkMarkerSet({ written, set });
  return { ...set, sha256 };
}
