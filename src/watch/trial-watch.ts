import { addCapture, type Capture, type Captures } from '../core/captures/capture-session.ts';
import type { Report } from '../core/report/report.ts';
import type { Clock } from './clock.ts';
import type { FileStates } from './file-state.ts';
import type { OpenHints } from './folder-hints.ts';
import type { Listing } from './list-trials.ts';
import { ReadyFiles } from './ready-files.ts';
import { WatchedFolder } from './watched-folder.ts';

export interface TrialWatchOptions {
  readonly folder: string;
  readonly names: readonly string[];
  readonly existing: boolean;
  readonly lookEveryMs: number;
}

export interface TrialWatchSources {
  readonly clock: Clock;
  readonly files: FileStates;
  list(): Promise<Listing>;
  readonly openHints: OpenHints;
  /** The report on a trial, whatever the file is like. */
  check(path: string): Promise<Report>;
}

/** All there is to show at one moment. */
export interface WatchState {
  readonly captures: Captures;
  /** Null before the first look. */
  readonly folder: 'there' | 'missing' | null;
  /** Trials that are being written, or wait to be checked. */
  readonly coming: number;
  /** Trials that were there at the start and are left alone; trials passed over for their names. */
  readonly leftAlone: number;
  readonly passedOver: number;
  readonly locked: number;
}

export interface TrialWatchEvents {
  /** A trial was checked. */
  onCapture(capture: Capture, what: 'new' | 'replaced' | 'copy'): void;
  onFolder(state: 'there' | 'missing'): void;
  onLocked(path: string): void;
  onOtherTrial(path: string): void;
  /** Anything that the page shows has changed. */
  onState(): void;
}

/** From a folder to the captures of a session: changed files, finished files, reports, captures. */
export class TrialWatch {
  readonly #sources: TrialWatchSources;
  readonly #events: TrialWatchEvents;
  readonly #folder: WatchedFolder;
  readonly #ready: ReadyFiles;
  readonly #locked = new Set<string>();
  #captures: Captures = [];
  #folderState: 'there' | 'missing' | null = null;
  #checking = 0;
  #passedOver = 0;
  #closed = false;

  constructor(options: TrialWatchOptions, sources: TrialWatchSources, events: TrialWatchEvents) {
    this.#sources = sources;
    this.#events = events;
    this.#ready = new ReadyFiles(sources.clock, sources.files, {
      onReady: (path, fingerprint) => void this.#check(path, fingerprint),
      onGone: (path) => this.#forget(path),
      onLocked: (path) => {
        this.#locked.add(path);
        events.onLocked(path);
        events.onState();
      },
    });
    const { clock, list, openHints, files } = sources;
    this.#folder = new WatchedFolder(
      options,
      { clock, list, openHints, fingerprintOf: files.fingerprintOf },
      {
        onChanged: (path) => {
          this.#ready.await(path);
          events.onState();
        },
        onFolder: (state) => {
          this.#folderState = state;
          events.onFolder(state);
          events.onState();
        },
        onOtherTrial: (path) => {
          this.#passedOver += 1;
          events.onOtherTrial(path);
          events.onState();
        },
      },
    );
  }

  get state(): WatchState {
    return {
      captures: this.#captures,
      folder: this.#folderState,
      coming: this.#ready.waiting.length + this.#checking,
      leftAlone: this.#folder.leftAlone,
      passedOver: this.#passedOver,
      locked: this.#locked.size,
    };
  }

  start(): Promise<void> {
    return this.#folder.start();
  }

  async close(): Promise<void> {
    this.#closed = true;
    this.#ready.close();
    await this.#folder.close();
  }

  async #check(path: string, fingerprint: string): Promise<void> {
    this.#folder.settle(path, fingerprint);
    this.#locked.delete(path);
    this.#checking += 1;
    const report = await this.#sources.check(path);
    this.#checking -= 1;
    if (this.#closed) return;
    // Deleted between the last byte and the check: there is no trial to tell of.
    const gone = isUnreadable(report) && (await this.#sources.files.fingerprintOf(path)) === null;
    if (!gone) {
      const { captures, what, capture } = addCapture(this.#captures, path, report);
      this.#captures = captures;
      this.#events.onCapture(capture, what);
    }
    this.#events.onState();
  }

  #forget(path: string): void {
    this.#locked.delete(path);
    this.#events.onState();
  }
}

function isUnreadable({ problems }: Report): boolean {
  return problems.some(({ code }) => code === 'file-unreadable');
}
