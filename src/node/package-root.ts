import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Folder of this package, found upward from this file: the same from the sources and from the built bundle. */
export const packageRoot = findPackageRoot(dirname(fileURLToPath(import.meta.url)));

function findPackageRoot(from: string): string {
  for (let folder = from; ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'package.json'))) return folder;
    if (folder === dirname(folder)) throw new Error(`No package.json above ${from}; install the package again.`);
  }
}

export function packageVersion(): string {
  return String(JSON.parse(readFileSync(join(packageRoot, 'package.json'), 'utf8')).version);
}
