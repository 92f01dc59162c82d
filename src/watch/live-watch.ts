import { createHash, randomBytes } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Capture } from '../core/captures/capture-session.ts';
import { packageRoot } from '../node/package-root.ts';
import { renderReportPage } from '../page/render-report-page.tsx';
import { pageStyle } from '../page/style/page-style.ts';
import type { CheckInputs } from './check-orders.ts';
import { systemClock } from './clock.ts';
import { EventStream } from './event-stream.ts';
import { filesOnDisk } from './file-state.ts';
import { eventHints, noHints } from './folder-hints.ts';
import { listTrials } from './list-trials.ts';
import { renderLive, renderLivePage } from './live-page/live-page.tsx';
import { liveStyle } from './live-page/live-style.ts';
import type { LiveView } from './live-page/live-view.ts';
import { startLiveServer } from './live-server.ts';
import { startBuiltThread, TrialChecker } from './trial-checker.ts';
import { TrialWatch, type TrialWatchEvents } from './trial-watch.ts';
import { timeOfDay } from './wall-clock.ts';

/** Without events a trial is found this soon; with them this is what a lost event costs. */
const lookEveryMs = { polling: 500, events: 2000 } as const;

export interface LiveWatchOptions {
  readonly folder: string;
  readonly names: readonly string[];
  /** Whether trials that are there at the start are checked too. */
  readonly existing: boolean;
  /** For shares that send no events: looks instead of listening. */
  readonly poll: boolean;
  /** 0 for any that is free. */
  readonly port: number;
  readonly showNames: boolean;
}

export interface LiveWatch {
  /** Of the live page. */
  readonly address: string;
  close(): Promise<void>;
}

/**
 * Watches a folder and shows what it finds on a page of this machine: from the folder to the browser, everything that
 * runs while `watch` runs. Closing it closes all of it.
 * @throws {InputError} where the port cannot be had
 */
export async function startLiveWatch(
  options: LiveWatchOptions,
  inputs: CheckInputs,
  tell: Omit<TrialWatchEvents, 'onState'>,
): Promise<LiveWatch> {
  const run = randomBytes(8).toString('hex');
  const times = new Map<number, string>();
  let revision = 1;
  const events = new EventStream(systemClock, { revision: String(revision), run });
  const checker = new TrialChecker(inputs, startBuiltThread, systemClock);
  const watch = new TrialWatch(
    { ...options, lookEveryMs: options.poll ? lookEveryMs.polling : lookEveryMs.events },
    {
      clock: systemClock,
      files: filesOnDisk,
      list: () => listTrials(options.folder, options.names),
      openHints: options.poll ? noHints : eventHints,
      check: (path) => checker.check(path),
    },
    {
      ...tell,
      onCapture(capture, what) {
        if (what !== 'copy') times.set(capture.number, timeOfDay());
        tell.onCapture(capture, what);
      },
      onState() {
        revision += 1;
        events.send({ revision: String(revision), run });
      },
    },
  );
  const view = (): LiveView => ({
    state: watch.state,
    revision,
    run,
    times,
    names: options.names,
    showNames: options.showNames,
  });
  const content = {
    page: () => renderLivePage(view()),
    live: () => renderLive(view()),
    capture: (number: number) => capturePage(watch.state.captures, number, options.showNames),
    script: await readFile(join(packageRoot, 'dist', 'live-page.js'), 'utf8'),
    style: liveStyle,
  };
  const server = await startLiveServer(options.port, content, events);
  await watch.start();
  return {
    address: `http://127.0.0.1:${server.port}/`,
    async close() {
      await watch.close();
      await checker.close();
      await server.close();
    },
  };
}

/** A report's page brings its own style; its policy allows that and nothing else. */
const reportPolicy = `default-src 'none'; style-src 'sha256-${createHash('sha256').update(pageStyle).digest('base64')}'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'`;

function capturePage(captures: readonly Capture[], number: number, showNames: boolean) {
  const capture = captures.find((one) => one.number === number);
  return capture === undefined ? null : { html: renderReportPage(capture.report, { showNames }), policy: reportPolicy };
}
