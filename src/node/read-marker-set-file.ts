import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { ownName } from '../core/report/own-name.ts';
import { InputError } from './input-error.ts';
import { packageRoot } from './package-root.ts';
import { readTextFile, type TextFile } from './read-text-file.ts';

const shippedFolder = join(packageRoot, 'shared', 'marker-sets');

/**
 * Reads a marker set by the name of one that ships, or by the path of a file: with a slash in it, or ending in `.json`.
 * @throws {InputError} where there is none of that name, or the file cannot be read.
 */
export async function readMarkerSetFile(nameOrPath: string): Promise<TextFile> {
  if (/[/\\]|\.json$/i.test(nameOrPath)) return readTextFile(nameOrPath, `marker set ${ownName(nameOrPath)}`);
  const names = await shippedMarkerSets();
  if (!names.includes(nameOrPath)) {
    throw new InputError(
      `No marker set is called ${nameOrPath}, expected one of ${names.join(', ')}`,
      'give the path of a .json file for a marker set of your own',
    );
  }
  return readTextFile(join(shippedFolder, `${nameOrPath}.json`), `marker set ${nameOrPath}`);
}

/** Names of the marker sets that ship, sorted. */
export async function shippedMarkerSets(): Promise<string[]> {
  const files = await readdir(shippedFolder);
  return files.flatMap((file) => (file.endsWith('.json') ? [file.slice(0, -'.json'.length)] : [])).sort();
}
