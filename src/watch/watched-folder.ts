import { basename } from 'node:path';
import type { Clock } from './clock.ts';
import type { Fingerprint } from './file-state.ts';
import type { OpenHints } from './folder-hints.ts';
import type { Listing } from './list-trials.ts';
import { fitsNames } from './trial-names.ts';

/** However many trials there are, looking through them takes at most a tenth of the time. */
const restForEachLook = 9;

export interface FolderSources {
  readonly clock: Clock;
  /** @throws where the folder is not there or cannot be listed */
  list(): Promise<Listing>;
  fingerprintOf(path: string): Promise<Fingerprint>;
  readonly openHints: OpenHints;
}

export interface FolderEvents {
  /** A trial is new or has changed. */
  onChanged(path: string): void;
  /** The folder is there or missing, at the start and whenever that changes. */
  onFolder(state: 'there' | 'missing'): void;
  /** A trial whose name does not fit, told once for each. */
  onOtherTrial(path: string): void;
}

export interface FolderOptions {
  readonly folder: string;
  readonly names: readonly string[];
  /** Whether trials that are there at the start count as new. */
  readonly existing: boolean;
  readonly lookEveryMs: number;
}

/**
 * Finds new and changed trials of a folder. Events of the file system are taken as hints only: what counts is the state
 * of the files, and the whole folder is looked through every few seconds, so that a lost event delays a trial and never
 * loses it. The folder may come and go.
 */
export class WatchedFolder {
  readonly #sources: FolderSources;
  readonly #events: FolderEvents;
  readonly #options: FolderOptions;
  /** Each trial as it was when it was last told, or found finished. */
  readonly #known = new Map<string, string>();
  readonly #toldOthers = new Set<string>();
  #state: 'there' | 'missing' | null = null;
  #identity: string | null = null;
  #hints: { close(): Promise<void> } | null = null;
  #cancel: (() => void) | null = null;
  #closed = false;

  constructor(options: FolderOptions, sources: FolderSources, events: FolderEvents) {
    this.#options = options;
    this.#sources = sources;
    this.#events = events;
  }

  /** How many trials were there at the start and are left alone. */
  leftAlone = 0;

  /** Looks through the folder once, then goes on until it is closed. */
  async start(): Promise<void> {
    await this.#lookThrough(!this.#options.existing);
    this.#lookLater(this.#options.lookEveryMs);
  }

  /** The trial was found finished as it is: no need to tell of it until it changes again. */
  settle(path: string, fingerprint: string): void {
    this.#known.set(path, fingerprint);
  }

  async close(): Promise<void> {
    this.#closed = true;
    this.#cancel?.();
    await this.#hints?.close();
  }

  #lookLater(ms: number): void {
    if (this.#closed) return;
    this.#cancel = this.#sources.clock.after(ms, async () => {
      const began = this.#sources.clock.now();
      await this.#lookThrough(false);
      const tookMs = this.#sources.clock.now() - began;
      this.#lookLater(Math.max(this.#options.lookEveryMs, restForEachLook * tookMs));
    });
  }

  /** @param leave whether what is there is left alone */
  async #lookThrough(leave: boolean): Promise<void> {
    let listing: Listing;
    try {
      listing = await this.#sources.list();
    } catch {
      await this.#folderIs('missing', null);
      return;
    }
    await this.#folderIs('there', listing.identity);
    if (leave) {
      for (const [path, fingerprint] of listing.trials) this.#known.set(path, fingerprint);
      for (const path of listing.otherTrials) this.#toldOthers.add(path);
      this.leftAlone = listing.trials.size;
      return;
    }
    for (const [path, fingerprint] of listing.trials) this.#isNow(path, fingerprint);
    for (const path of listing.otherTrials) this.#tellOther(path);
    for (const path of this.#known.keys()) if (!listing.trials.has(path)) this.#known.delete(path);
  }

  async #folderIs(state: 'there' | 'missing', identity: string | null): Promise<void> {
    if (this.#closed) return;
    if (identity !== this.#identity || this.#state === null) {
      // Whoever waits for events of a folder that went hears nothing of the one that comes in its place.
      this.#identity = identity;
      await this.#hints?.close();
      this.#hints = identity !== null && !this.#closed ? this.#openHints() : null;
    }
    if (state === this.#state) return;
    this.#state = state;
    this.#events.onFolder(state);
  }

  #openHints() {
    return this.#sources.openHints(this.#options.folder, (path) => {
      if (fitsNames(basename(path), this.#options.names)) void this.#lookAt(path);
    });
  }

  async #lookAt(path: string): Promise<void> {
    const fingerprint = await this.#sources.fingerprintOf(path);
    if (fingerprint !== null) this.#isNow(path, fingerprint);
  }

  #isNow(path: string, fingerprint: string): void {
    if (this.#closed || this.#known.get(path) === fingerprint) return;
    this.#known.set(path, fingerprint);
    this.#events.onChanged(path);
  }

  #tellOther(path: string): void {
    if (this.#closed || this.#toldOthers.has(path)) return;
    this.#toldOthers.add(path);
    this.#events.onOtherTrial(path);
  }
}
