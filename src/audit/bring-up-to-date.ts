import { type AuditInputs, fingerprintOf } from './check/audit-inputs.ts';
import type { AuditAnswer } from './check/audit-tasks.ts';
import { sessionPathOf } from './check/session-beside.ts';
import type { TrialPool } from './check/trial-pool.ts';
import type { FoundFile } from './find/find-trials.ts';
import type { IndexedFile } from './store/file-index.ts';
import { lookAtFile } from './store/look-at-file.ts';
import type { AuditStore } from './store/open-store.ts';

/** How many files have been dealt with, and in which way. */
export interface Progress {
  total: number;
  done: number;
  unchanged: number;
  checked: number;
}

export interface Brought {
  /** What lies at each path now; a file that could not be read is missing. */
  readonly indexed: ReadonlyMap<string, IndexedFile>;
  /** Results of files that could not be read, as JSON, by path; null where even the attempt ended its thread. */
  readonly unread: ReadonlyMap<string, string | null>;
}

export interface BringOptions {
  /** Reads every file again, however unchanged it looks. */
  readonly rehash: boolean;
  readonly now: () => number;
  readonly signal: AbortSignal;
  readonly onProgress: (progress: Progress) => void;
}

const looksAtOnce = 64;
/** Results that a power cut may cost; a process that is killed costs none. */
const syncEveryMs = 1000;

/**
 * Sees to it that the store has a result for each file: those that look unchanged are passed over, those that changed
 * are hashed, and those whose content, session, marker set, norms or program is new are checked. Each result is on its
 * way to the disk before its file counts as done.
 */
export async function bringUpToDate(
  files: readonly FoundFile[],
  inputs: AuditInputs,
  store: AuditStore,
  pool: TrialPool,
  options: BringOptions,
): Promise<Brought> {
  const { signal, now, onProgress } = options;
  const fingerprint = fingerprintOf(inputs);
  const indexed = new Map<string, IndexedFile>();
  const unread = new Map<string, string | null>();
  const looks = new Map<string, Pick<IndexedFile, 'look' | 'sessionLook' | 'seenAtMs'>>();
  const progress: Progress = { total: files.length, done: 0, unchanged: 0, checked: 0 };
  let syncedAtMs = now();

  const finish = (kind: 'unchanged' | 'checked' | null): void => {
    progress.done += 1;
    if (kind !== null) progress[kind] += 1;
    onProgress(progress);
    if (now() - syncedAtMs < syncEveryMs) return;
    store.results.sync();
    store.files.sync();
    syncedAtMs = now();
  };
  const remember = (path: string, sha256: string, sessionSha256: string | null): void => {
    const look = looks.get(path);
    // Without a look the file came or went meanwhile; the next run reads it again.
    const entry = { path, sha256, sessionSha256, ...(look ?? unlooked) };
    indexed.set(path, entry);
    if (look !== undefined) store.files.set(entry);
  };

  const toHash: string[] = [];
  const toCheck: string[] = [];
  for (let at = 0; at < files.length; at += looksAtOnce) {
    signal.throwIfAborted();
    await Promise.all(
      files.slice(at, at + looksAtOnce).map(async ({ path }) => {
        const seenAtMs = now();
        const [look, sessionLook] = await Promise.all([lookAtFile(path), lookAtFile(sessionPathOf(path))]);
        const known = look === null || options.rehash ? null : store.files.find(path, look, sessionLook);
        if (known !== null && store.results.has({ ...known, fingerprint })) {
          indexed.set(path, known);
          finish('unchanged');
          return;
        }
        if (look !== null) looks.set(path, { look, sessionLook, seenAtMs });
        // Where nothing is known yet, hashing first would read every file twice.
        (store.results.size === 0 ? toCheck : toHash).push(path);
      }),
    );
  }

  const takeHash = async (path: string, answer: AuditAnswer | null): Promise<void> => {
    const { sha256 = null, sessionSha256 = null } = answer ?? {};
    if (sha256 === null || !store.results.has({ sha256, sessionSha256, fingerprint })) {
      toCheck.push(path);
      return;
    }
    remember(path, sha256, sessionSha256);
    finish('unchanged');
  };
  const takeCheck = async (path: string, answer: AuditAnswer | null): Promise<void> => {
    if (answer === null || answer.sha256 === null) unread.set(path, answer?.result ?? null);
    else {
      const { sha256, sessionSha256, result } = answer;
      store.results.add({ sha256, sessionSha256, fingerprint }, result!);
      remember(path, sha256, sessionSha256);
    }
    finish('checked');
  };
  await pool.run('hash', toHash, takeHash, signal);
  toCheck.sort();
  await pool.run('check', toCheck, takeCheck, signal);
  store.results.sync();
  store.files.sync();
  return { indexed, unread };
}

const unlooked = { look: { size: '', mtimeNs: '0', inode: '' }, sessionLook: null, seenAtMs: 0 };
