import { readFileSync } from 'node:fs';
import { type LoadedMarkerSet, parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';

/** Marker sets as they ship; the hash is of no account in tests. */
function shipped(name: string): LoadedMarkerSet {
  const text = readFileSync(new URL(`../../shared/marker-sets/${name}.json`, import.meta.url), 'utf8');
  return parseMarkerSet(text, '0'.repeat(64));
}

export const wands22 = shipped('lower-limb-wands-22');
export const medial20 = shipped('lower-limb-medial-20');
