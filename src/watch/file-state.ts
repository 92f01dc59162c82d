import type { Stats } from 'node:fs';
import { type FileHandle, open, stat } from 'node:fs/promises';
import { C3D_HEAD_BYTES, describeC3d } from '../core/c3d/read-c3d.ts';

/** What tells one writing of a file from another; equal while nothing changed. Null where there is no file. */
export type Fingerprint = string | null;

export async function fingerprintOf(path: string): Promise<Fingerprint> {
  const found = await stat(path).catch(() => null);
  return found?.isFile() ? fingerprint(found) : null;
}

/** Size and time of writing: what a share that comes back keeps, and any new writing changes. */
export function fingerprint({ size, mtimeMs }: Stats): string {
  return `${size} ${mtimeMs}`;
}

/**
 * `complete`: as long as its header implies; `unfinished`: shorter, or no header yet; `locked`: another program keeps
 * it; `gone`: not there.
 */
export type Completeness = 'complete' | 'unfinished' | 'locked' | 'gone';

/** Looks at the first megabyte of a trial and at its length. */
export async function completenessOf(path: string): Promise<Completeness> {
  let file: FileHandle;
  try {
    file = await open(path, 'r');
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : '';
    return code === 'ENOENT' || code === 'ENOTDIR' ? 'gone' : 'locked';
  }
  try {
    const { size } = await file.stat();
    const head = new Uint8Array(Math.min(size, C3D_HEAD_BYTES));
    for (let filled = 0; filled < head.length; ) {
      const { bytesRead } = await file.read(head, filled, head.length - filled, filled);
      if (bytesRead === 0) return 'unfinished';
      filled += bytesRead;
    }
    return isWhole(head, size) ? 'complete' : 'unfinished';
  } catch {
    return 'locked';
  } finally {
    await file.close().catch(() => {});
  }
}

function isWhole(head: Uint8Array, size: number): boolean {
  try {
    const { truncated, frameCount } = describeC3d(head, size);
    return !truncated && frameCount > 0;
  } catch {
    return false;
  }
}

/** What is asked of files; tests bring their own. */
export interface FileStates {
  fingerprintOf(path: string): Promise<Fingerprint>;
  completenessOf(path: string): Promise<Completeness>;
}

export const filesOnDisk: FileStates = { fingerprintOf, completenessOf };
