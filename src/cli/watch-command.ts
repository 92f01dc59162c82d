import { stat } from 'node:fs/promises';
import { type Capture, hasStoodLongEnough } from '../core/captures/capture-session.ts';
import { whenToStop } from '../core/report/advice.ts';
import { counted } from '../core/report/counted.ts';
import { escapeControls } from '../core/report/escape-controls.ts';
import { ownName } from '../core/report/own-name.ts';
import { sentence } from '../core/report/sentence.ts';
import { headline } from '../core/report/text-headline.ts';
import { startLiveWatch } from '../watch/live-watch.ts';
import { usualNames } from '../watch/trial-names.ts';
import type { CommandContext } from './command-context.ts';
import { readMarkerSet, readNorms, readSession } from './read-inputs.ts';
import { UsageError } from './usage-error.ts';

export interface WatchOptions {
  readonly markerSet: string;
  readonly session?: string;
  readonly norms?: string;
  readonly names?: readonly string[];
  readonly existing?: boolean;
  readonly poll?: boolean;
  readonly port: number;
  readonly showNames?: boolean;
}

/** Trials of other names that are told of, before it is clear that there are others. */
const othersTold = 3;

/**
 * Watches a folder until Ctrl-C: prints one line for each standing trial and shows it on a page of this machine.
 * @throws {UsageError | InputError} at once, where an input or the port cannot be used; an abort in the end
 */
export async function watchCommand(folder: string, options: WatchOptions, context: CommandContext): Promise<number> {
  const { channels, signal } = context;
  await refuseFile(folder);
  const engine = await context.engine.check();
  const markerSet = await readMarkerSet(engine, options.markerSet);
  const session = await readSession(engine, options.session);
  const norms = await readNorms(engine, markerSet, options.norms);
  const names = options.names ?? (markerSet.staticTrialNames.length > 0 ? markerSet.staticTrialNames : usualNames);

  let others = 0;
  const watch = await startLiveWatch(
    {
      folder,
      names,
      existing: options.existing === true,
      poll: options.poll === true,
      port: options.port,
      showNames: options.showNames === true,
    },
    { markerSet, session, norms },
    {
      onCapture(capture, what) {
        if (what === 'copy') channels.say(`${ownName(capture.path)} was written again as it was.`);
        else void channels.report(`${captureLine(capture, what)}\n`);
      },
      onFolder(state) {
        if (state === 'missing') channels.say(`${ownName(folder)} is not there; waiting for it.`);
      },
      onLocked: (path) => channels.say(`${ownName(path)} is kept by another program; trying on.`),
      onOtherTrial(path) {
        others += 1;
        if (others <= othersTold)
          channels.say(`passed over ${ownName(path)}: its name fits none of ${names.join(', ')}.`);
        if (others === othersTold)
          channels.say('further trials of other names are not told; --names says which to take.');
      },
    },
  );
  try {
    channels.say(`watching ${ownName(folder)} for ${names.join(', ')}; Ctrl-C ends it.`);
    channels.say(`the live page is at ${watch.address}`);
    await new Promise<void>((done) => {
      if (signal.aborted) done();
      signal.addEventListener('abort', () => done(), { once: true });
    });
  } finally {
    await watch.close();
  }
  signal.throwIfAborted();
  return 0;
}

/** A folder that is not there yet may come; a file never becomes one. */
async function refuseFile(folder: string): Promise<void> {
  const found = await stat(folder).catch(() => null);
  if (found === null || found.isDirectory()) return;
  throw new UsageError(`${ownName(folder)} is a file, expected the folder that the trials are written to; name that.`);
}

/** "2  standing-02.c3d: 1 step to do before walking. ... First: ... Since 1: ..." */
function captureLine(capture: Capture, what: 'new' | 'replaced'): string {
  const { number, path, report, against, corrections } = capture;
  const [first] = report.moves;
  const said = [
    `${headline(report)}${what === 'replaced' ? ' (written again)' : ''}`,
    ...(first === undefined ? [] : [`First: ${sentence(first.instruction)}`]),
    ...(against === null || against.comparison.steps.length === 0
      ? []
      : [`Since capture ${against.number}: ${against.comparison.steps.map(({ says }) => says).join(' ')}`]),
    ...(hasStoodLongEnough(capture) && report.verdict !== 'ready'
      ? [`${counted(corrections, 'correction')} so far. ${whenToStop}`]
      : []),
  ];
  return escapeControls(`${number}  ${ownName(path)}: ${said.join(' ')}`);
}
