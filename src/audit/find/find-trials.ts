import { opendir, realpath, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { describeSystemError } from '../../node/describe-system-error.ts';
import { InputError } from '../../node/input-error.ts';

/** A file that may be a trial. */
export interface FoundFile {
  readonly path: string;
  /** As a path pattern sees it: below the folder that was given, with forward slashes. */
  readonly below: string;
}

export interface FoundFiles {
  /** In the order of their paths, each once. */
  readonly files: readonly FoundFile[];
  /** Folders that could not be opened: what lies in them was not audited, and is said so. */
  readonly unread: readonly string[];
}

/**
 * Every `.c3d` file below the folders, in the order of its path. Links are followed, and a folder that was already
 * walked, by whatever way, is not walked again: a circle of links ends.
 * @throws {InputError} where a folder that was named cannot be opened.
 */
export async function findTrials(folders: readonly string[], signal: AbortSignal): Promise<FoundFiles> {
  const files = new Map<string, FoundFile>();
  const unread: string[] = [];
  const walked = new Set<string>();
  const walk = async (folder: string, below: string): Promise<void> => {
    signal.throwIfAborted();
    const real = await realpath(folder);
    if (walked.has(real)) return;
    walked.add(real);
    const entries: { name: string; isFolder: boolean; isFile: boolean }[] = [];
    for await (const entry of await opendir(folder)) {
      const followed = entry.isSymbolicLink() ? await stat(join(folder, entry.name)).catch(() => null) : entry;
      entries.push({
        name: entry.name,
        isFolder: followed?.isDirectory() ?? false,
        isFile: followed?.isFile() ?? false,
      });
    }
    entries.sort((a, b) => (a.name < b.name ? -1 : 1));
    for (const { name, isFolder, isFile } of entries) {
      const path = join(folder, name);
      if (isFile && /\.c3d$/i.test(name)) files.set(path, { path, below: below + name });
      else if (isFolder) await walk(path, `${below}${name}/`).catch(() => unread.push(path));
      signal.throwIfAborted();
    }
  };
  for (const folder of folders) {
    if ((await stat(folder).catch(() => null))?.isFile()) {
      throw new InputError(`${folder} is a file, expected a folder`, 'name the folder, or use --files-from for a list');
    }
    try {
      await walk(folder, '');
    } catch (error) {
      signal.throwIfAborted();
      throw describeSystemError(`Cannot open the folder ${folder}`, error);
    }
  }
  return { files: [...files.values()], unread };
}
