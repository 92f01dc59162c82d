import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { checkTrial } from '../core/check-trial.ts';
import type { Report } from '../core/report/report.ts';
import { reportFault } from '../node/check-trial-file.ts';
import { packageRoot } from '../node/package-root.ts';
import type { CheckedOrder, CheckInputs, CheckOrder } from './check-orders.ts';
import type { Clock } from './clock.ts';

/** The part of a worker thread that is used; tests bring their own. */
export interface CheckThread {
  postMessage(order: CheckOrder): void;
  on(event: 'message', listener: (checked: CheckedOrder) => void): unknown;
  on(event: 'error', listener: (error: unknown) => void): unknown;
  on(event: 'exit', listener: () => void): unknown;
  terminate(): Promise<unknown>;
}

export type StartThread = (inputs: CheckInputs) => CheckThread;

/** The thread as the build leaves it beside the command (scripts/build.js). */
export const startBuiltThread: StartThread = (inputs) =>
  new Worker(join(packageRoot, 'dist', 'check-worker.cjs'), { workerData: inputs });

/** Far longer than any trial takes; a share that hangs must not hold up those that follow. */
const longestMs = 60_000;

interface Job {
  readonly path: string;
  readonly done: (report: Report) => void;
}

/**
 * Checks trials one after the other in a thread of its own. Every trial gets a report: where the thread falls or hangs,
 * one that says so, and the next trial gets a new thread.
 */
export class TrialChecker {
  readonly #inputs: CheckInputs;
  readonly #start: StartThread;
  readonly #clock: Clock;
  readonly #queue: Job[] = [];
  #thread: CheckThread | null = null;
  #current: { readonly id: number; readonly job: Job; readonly cancel: () => void } | null = null;
  #orders = 0;
  #closed = false;

  constructor(inputs: CheckInputs, start: StartThread, clock: Clock) {
    this.#inputs = inputs;
    this.#start = start;
    this.#clock = clock;
  }

  /** Trials that wait or are being checked. */
  get busyWith(): number {
    return this.#queue.length + (this.#current === null ? 0 : 1);
  }

  /** The report on a trial; of no more once the checker is closed. */
  check(path: string): Promise<Report> {
    return new Promise((done) => {
      this.#queue.push({ path, done });
      this.#next();
    });
  }

  async close(): Promise<void> {
    this.#closed = true;
    this.#current?.cancel();
    this.#queue.length = 0;
    await this.#thread?.terminate();
  }

  #next(): void {
    if (this.#closed || this.#current !== null) return;
    const job = this.#queue.shift();
    if (job === undefined) return;
    const id = ++this.#orders;
    const cancel = this.#clock.after(longestMs, () =>
      this.#fell(this.#thread, new Error(`it took longer than ${longestMs / 1000} s`)),
    );
    this.#current = { id, job, cancel };
    this.#thread ??= this.#startThread();
    this.#thread.postMessage({ id, path: job.path });
  }

  #startThread(): CheckThread {
    const thread = this.#start(this.#inputs);
    thread.on('message', ({ id, report }) => {
      if (this.#current?.id === id) this.#finish(report);
    });
    thread.on('error', (error) => this.#fell(thread, error));
    thread.on('exit', () => this.#fell(thread, new Error('its thread ended')));
    return thread;
  }

  #fell(thread: CheckThread | null, error: unknown): void {
    if (this.#closed || thread === null || thread !== this.#thread) return;
    this.#thread = null;
    void thread.terminate();
    if (this.#current === null) return;
    const { markerSet, session, norms } = this.#inputs;
    const source = { path: this.#current.job.path, sha256: '' };
    this.#finish(reportFault(source, (bytes, from) => checkTrial(bytes, markerSet, session, from, norms), error));
  }

  #finish(report: Report): void {
    const { job, cancel } = this.#current!;
    cancel();
    this.#current = null;
    job.done(report);
    this.#next();
  }
}
