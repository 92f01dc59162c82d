import { mkdirSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describeSystemError } from '../../node/describe-system-error.ts';
import type { Share } from '../find/share-of-files.ts';
import { claimFolder } from './claim-folder.ts';
import { FileIndex } from './file-index.ts';
import { ResultJournal } from './result-journal.ts';
import { lockStore } from './store-lock.ts';

/** What one process of an audit keeps between runs: every result it ever gave, and how each file looked. */
export interface AuditStore {
  readonly results: ResultJournal;
  readonly files: FileIndex;
  close(): void;
}

/**
 * Opens the part of the store that belongs to one share, or makes it.
 * @throws {InputError} where it cannot be made, holds somebody else's files, or another audit writes to it.
 */
export function openStore(folder: string, share: Share): AuditStore {
  const own = join(folder, `share-${share.number}-of-${share.of}`);
  claimFolder(folder);
  try {
    mkdirSync(own, { recursive: true, mode: 0o700 });
    mkdirSync(join(folder, 'parts'), { recursive: true, mode: 0o700 });
  } catch (error) {
    throw describeSystemError(`Cannot make the audit's store in ${folder}`, error);
  }
  const unlock = lockStore(join(own, 'lock'));
  try {
    // Left unfinished by a process that was killed.
    for (const name of readdirSync(own)) if (/\.(tmp|new)$/.test(name)) rmSync(join(own, name), { force: true });
    const results = new ResultJournal(join(own, 'results.jsonl'));
    const files = new FileIndex(join(own, 'files.jsonl'));
    return {
      results,
      files,
      close() {
        results.close();
        files.close();
        unlock();
      },
    };
  } catch (error) {
    unlock();
    throw error;
  }
}
