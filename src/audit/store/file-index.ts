import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { LineFile } from './line-file.ts';

/** How a file looked: any of these differs after a change that is not hidden on purpose. */
export interface FileLook {
  readonly size: string;
  readonly mtimeNs: string;
  readonly inode: string;
}

/** What was in a file, and in the session beside it, when they looked so. */
export interface IndexedFile {
  readonly path: string;
  readonly look: FileLook;
  readonly sessionLook: FileLook | null;
  /** Clock of this machine when the look was taken, before the file was read. */
  readonly seenAtMs: number;
  readonly sha256: string;
  readonly sessionSha256: string | null;
}

/** A change within this time may leave the time of change as it was: coarse clocks of disks and network shares. */
const tooYoungMs = 2000;

/** Spares the reading of files that look as they did. Only ever a hint: without it every file is hashed again. */
export class FileIndex {
  readonly #path: string;
  #lines: LineFile;
  #count = 0;
  readonly #files = new Map<string, IndexedFile>();

  constructor(path: string) {
    this.#path = path;
    this.#lines = new LineFile(path);
    this.#lines.scan((line) => {
      this.#count += 1;
      const entry = parsed(line.toString('utf8'));
      if (entry !== null) this.#files.set(entry.path, entry);
    });
  }

  /** Reads an index without becoming its writer: a torn last line is left to whoever writes. */
  static entriesIn(path: string): IndexedFile[] {
    return readFileSync(path, 'utf8')
      .split('\n')
      .map(parsed)
      .filter((entry) => entry !== null);
  }

  /** What is known of a file that looks so now; null where it may have changed. */
  find(path: string, look: FileLook, sessionLook: FileLook | null): IndexedFile | null {
    const known = this.#files.get(path);
    if (known === undefined || !same(known.look, look) || !same(known.sessionLook, sessionLook)) return null;
    const youngest = Math.max(changedMs(look), sessionLook === null ? 0 : changedMs(sessionLook));
    return known.seenAtMs - youngest < tooYoungMs ? null : known;
  }

  set(entry: IndexedFile): void {
    this.#files.set(entry.path, entry);
    this.#lines.append(JSON.stringify(entry));
    this.#count += 1;
  }

  sync(): void {
    this.#lines.sync();
  }

  /** Closes it; where most lines are outdated, leaves a file of the others in its place. */
  close(): void {
    this.#lines.close();
    if (this.#count < 1000 || this.#count < 2 * this.#files.size) return;
    const fresh = `${this.#path}.new`;
    writeFileSync(fresh, [...this.#files.values()].map((entry) => `${JSON.stringify(entry)}\n`).join(''), {
      mode: 0o600,
      flush: true,
    });
    renameSync(fresh, this.#path);
  }
}

function same(a: FileLook | null, b: FileLook | null): boolean {
  if (a === null || b === null) return a === b;
  return a.size === b.size && a.mtimeNs === b.mtimeNs && a.inode === b.inode;
}

function changedMs({ mtimeNs }: FileLook): number {
  return Number(BigInt(mtimeNs) / 1_000_000n);
}

function parsed(line: string): IndexedFile | null {
  try {
    const entry = JSON.parse(line);
    return typeof entry?.path === 'string' && typeof entry.sha256 === 'string' ? entry : null;
  } catch {
    return null;
  }
}
