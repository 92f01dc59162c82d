import { randomBytes } from 'node:crypto';
import { type FileHandle, open, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { describeSystemError } from './describe-system-error.ts';
import { InputError } from './input-error.ts';

/**
 * Writes a temporary file beside the one asked for, then renames it, so that nobody ever reads half a report; a
 * failure leaves the old file as it was and no temporary one. A link keeps pointing where it points, and what is no
 * ordinary file (`/dev/stdout`, a pipe) is written to and never replaced.
 * @throws {InputError} where it cannot be written.
 */
export async function writeOutputAtomically(path: string, text: string): Promise<void> {
  try {
    const target = await realpath(path).catch(() => path);
    const existing = await stat(target).catch(() => null);
    if (existing && !existing.isFile() && !existing.isDirectory()) await writeFile(target, text);
    else if (existing?.isDirectory()) throw Object.assign(new Error('Is a folder'), { code: 'EISDIR' });
    else await writeThenRename(target, text, existing?.mode ?? 0o666);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') {
      throw new InputError(
        `Cannot write --output ${basename(path)}: its folder is not there`,
        'make the folder, or choose another',
        { cause: error },
      );
    }
    throw describeSystemError(`Cannot write --output ${basename(path)}`, error);
  }
}

async function writeThenRename(target: string, text: string, mode: number): Promise<void> {
  const temporary = join(dirname(target), `.${basename(target).slice(0, 100)}.${randomBytes(6).toString('hex')}.tmp`);
  const file: FileHandle = await open(temporary, 'wx', mode & 0o777);
  try {
    try {
      await file.writeFile(text);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(temporary, target);
  } catch (error) {
    await rm(temporary, { force: true });
    throw error;
  }
}
