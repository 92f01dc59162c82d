import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Norms } from '../core/decision/norms.ts';
import { packageRoot } from './package-root.ts';

/** The norms that ship for a marker set of this name; null where none do. A test holds that they are valid. */
export async function readShippedNorms(markerSetName: string): Promise<Norms | null> {
  if (!/^[a-z0-9-]+$/.test(markerSetName)) return null;
  const text = await readFile(join(packageRoot, 'shared', 'norms', `${markerSetName}.json`), 'utf8').catch(() => null);
  return text === null ? null : JSON.parse(text);
}
