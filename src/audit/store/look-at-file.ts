import { stat } from 'node:fs/promises';
import type { FileLook } from './file-index.ts';

/** Size, time of change and inode; null where there is no such file, or it cannot be looked at. */
export async function lookAtFile(path: string): Promise<FileLook | null> {
  const status = await stat(path, { bigint: true }).catch(() => null);
  if (status === null) return null;
  return { size: String(status.size), mtimeNs: String(status.mtimeNs), inode: String(status.ino) };
}
