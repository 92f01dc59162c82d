import { readFileSync } from 'node:fs';
import type { Norms } from '../../src/core/decision/norms.ts';
import { type LoadedMarkerSet, parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';

/** Marker sets as they ship; the hash is of no account in tests. */
function shipped(name: string): LoadedMarkerSet {
  const text = readFileSync(new URL(`../../shared/marker-sets/${name}.json`, import.meta.url), 'utf8');
  return parseMarkerSet(text, '0'.repeat(64));
}

/** Norms as they ship. */
export function normsOf(name: string): Norms {
  return JSON.parse(readFileSync(new URL(`../../shared/norms/${name}.json`, import.meta.url), 'utf8'));
}

export const wands22 = shipped('lower-limb-wands-22');
export const medial20 = shipped('lower-limb-medial-20');
