import type { Clock } from './clock.ts';
import type { Completeness, FileStates, Fingerprint } from './file-state.ts';

/** Unchanged for so long, and as long as its header implies: finished. */
const stableMs = 250;
/** Unchanged for so long, whatever its header says: nothing more will come. */
const givenUpMs = 3000;
const lookEveryMs = 100;
/** A file that another program keeps is tried again this often. */
const tryAgainMs = 1000;

export interface ReadyFileEvents {
  /** A trial is written as far as it will be. @param fingerprint of the writing that was found ready */
  onReady(path: string, fingerprint: string): void;
  /** It was deleted before it was finished. */
  onGone(path: string): void;
  /** Another program has kept a file for longer than writing takes. Told once for each. */
  onLocked(path: string): void;
}

interface Waiting {
  fingerprint: Fingerprint;
  /** When it was first seen as it is. */
  since: number;
  /** Null until it was looked into as it is. */
  completeness: Completeness | null;
  nextLook: number;
  toldLocked: boolean;
}

/**
 * Waits for files to be finished. A file is ready when the length that its C3D header implies is reached and it has
 * not changed for 250 ms, else when it has not changed for 3 s; one that is locked is tried until it opens.
 */
export class ReadyFiles {
  readonly #clock: Clock;
  readonly #files: FileStates;
  readonly #events: ReadyFileEvents;
  readonly #waiting = new Map<string, Waiting>();
  #cancel: (() => void) | null = null;
  #looking = false;
  #closed = false;

  constructor(clock: Clock, files: FileStates, events: ReadyFileEvents) {
    this.#clock = clock;
    this.#files = files;
    this.#events = events;
  }

  /** Files that are not finished yet. */
  get waiting(): readonly string[] {
    return [...this.#waiting.keys()];
  }

  /** Waits for this file, which is new or has changed. */
  await(path: string): void {
    if (this.#closed || this.#waiting.has(path)) return;
    const fresh = { fingerprint: null, since: this.#clock.now(), completeness: null, nextLook: 0, toldLocked: false };
    this.#waiting.set(path, fresh);
    this.#lookLater(0);
  }

  close(): void {
    this.#closed = true;
    this.#cancel?.();
    this.#waiting.clear();
  }

  #lookLater(ms: number): void {
    if (this.#closed || this.#looking || this.#cancel !== null) return;
    this.#cancel = this.#clock.after(ms, () => {
      this.#cancel = null;
      void this.#lookAtAll();
    });
  }

  async #lookAtAll(): Promise<void> {
    this.#looking = true;
    for (const [path, waiting] of [...this.#waiting]) {
      if (this.#closed) return;
      if (waiting.nextLook <= this.#clock.now()) await this.#look(path, waiting);
    }
    this.#looking = false;
    if (this.#waiting.size > 0) this.#lookLater(lookEveryMs);
  }

  async #look(path: string, waiting: Waiting): Promise<void> {
    const fingerprint = await this.#files.fingerprintOf(path);
    if (fingerprint === null) {
      this.#gone(path);
      return;
    }
    const now = this.#clock.now();
    if (fingerprint !== waiting.fingerprint) {
      Object.assign(waiting, { fingerprint, since: now, completeness: null });
      return;
    }
    const unchangedMs = now - waiting.since;
    if (unchangedMs < stableMs) return;
    if (waiting.completeness === null || waiting.completeness === 'locked') {
      waiting.completeness = await this.#files.completenessOf(path);
    }
    if (waiting.completeness === 'gone') this.#gone(path);
    else if (waiting.completeness === 'locked') this.#waitForUnlocking(path, waiting, now);
    else if (waiting.completeness === 'complete' || unchangedMs >= givenUpMs) this.#ready(path, fingerprint);
  }

  #ready(path: string, fingerprint: string): void {
    this.#waiting.delete(path);
    if (!this.#closed) this.#events.onReady(path, fingerprint);
  }

  #gone(path: string): void {
    this.#waiting.delete(path);
    if (!this.#closed) this.#events.onGone(path);
  }

  #waitForUnlocking(path: string, waiting: Waiting, now: number): void {
    waiting.nextLook = now + tryAgainMs;
    if (now - waiting.since < givenUpMs || waiting.toldLocked) return;
    waiting.toldLocked = true;
    this.#events.onLocked(path);
  }
}
