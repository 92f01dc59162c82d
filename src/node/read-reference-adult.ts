import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { packageRoot } from './package-root.ts';

/** Where the markers of an average adult stand, by label: lab axes with Z up, mm. A test holds that it is so. */
export async function readReferenceAdult(): Promise<ReadonlyMap<string, [number, number, number]>> {
  const text = await readFile(join(packageRoot, 'shared', 'reference-adult.json'), 'utf8');
  return new Map(Object.entries(JSON.parse(text).positions));
}
