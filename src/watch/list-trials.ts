import type { Stats } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { fingerprint } from './file-state.ts';
import { fitsNames, isOtherTrial } from './trial-names.ts';

/** A folder of a visit may lie in a folder of a patient, in one of a day. */
export const foldersDown = 3;

export interface Listing {
  /** Tells the folder from another one that took its place. */
  readonly identity: string;
  /** Fingerprints of the trials whose names fit, by path, the one written first first. */
  readonly trials: ReadonlyMap<string, string>;
  /** Paths of trials whose names do not fit. */
  readonly otherTrials: readonly string[];
}

/**
 * Lists the trials in a folder and three folders down, links followed, each folder once. What cannot be read below it is
 * passed over.
 * @throws where the folder itself cannot be listed.
 */
export async function listTrials(folder: string, names: readonly string[]): Promise<Listing> {
  const found: [path: string, state: Stats][] = [];
  const otherTrials: string[] = [];
  const seen = new Set<string>();

  const walk = async (below: string, deeper: number): Promise<void> => {
    const identity = identityOf(await stat(below));
    if (seen.has(identity)) return;
    seen.add(identity);
    const folders: string[] = [];
    const linkedFolders: string[] = [];
    for (const entry of await readdir(below, { withFileTypes: true })) {
      if (entry.name.startsWith('.')) continue;
      const path = join(below, entry.name);
      const fits = fitsNames(entry.name, names);
      const state = fits || entry.isSymbolicLink() ? await stat(path).catch(() => null) : null;
      if (entry.isDirectory()) folders.push(path);
      else if (state?.isDirectory()) linkedFolders.push(path);
      else if (fits && state?.isFile()) found.push([path, state]);
      else if (isOtherTrial(entry.name, names)) otherTrials.push(path);
    }
    // Links last, so that a folder is known by its own path where it has one here.
    for (const path of deeper > 0 ? [...folders, ...linkedFolders] : []) await walk(path, deeper - 1).catch(() => {});
  };

  await walk(folder, foldersDown);
  found.sort(([, a], [, b]) => a.mtimeMs - b.mtimeMs);
  return {
    identity: identityOf(await stat(folder)),
    trials: new Map(found.map(([path, state]) => [path, fingerprint(state)])),
    otherTrials,
  };
}

function identityOf({ dev, ino }: Stats): string {
  return `${dev} ${ino}`;
}
