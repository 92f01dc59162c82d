import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import type { LoadedMarkerSet } from '../core/marker-set/parse-marker-set.ts';

/** Written by the build beside the bundle. Run from the sources there is no such folder and every set is parsed. */
const folder = new URL('expanded-marker-sets/', import.meta.url);

/**
 * What parsing gives for a marker set that ships, worked out by the build: saves a `check` from loading the validator.
 * Found by the SHA-256 (lower-case hexadecimal) of the file that was read, so a set changed by one letter is not
 * found and goes through every check. Null where there is none.
 */
export async function expandedMarkerSet(sha256: string): Promise<LoadedMarkerSet | null> {
  if (!/^[0-9a-f]{64}$/.test(sha256)) return null;
  const text = await readFile(fileURLToPath(new URL(`${sha256}.json`, folder)), 'utf8').catch(() => null);
  return text === null ? null : JSON.parse(text);
}
