import { ownName } from '../core/report/own-name.ts';
import type { Problem, Report, Verdict } from '../core/report/report.ts';
import { type CheckBytes, checkTrialFile } from '../node/check-trial-file.ts';
import { isSameFile } from '../node/is-same-file.ts';
import { writeOutputAtomically } from '../node/write-output-atomically.ts';
import type { CommandContext } from './command-context.ts';
import type { CheckEngine } from './engine.ts';
import type { FrameRange } from './options.ts';
import { readMarkerSet, readNorms, readSession } from './read-inputs.ts';
import { type ReportFormat, reportPrinter } from './report-printer.ts';
import { UsageError } from './usage-error.ts';

export interface CheckOptions {
  readonly markerSet: string;
  readonly session?: string;
  readonly norms?: string;
  readonly frames?: FrameRange;
  readonly format: ReportFormat;
  readonly output?: string;
  readonly showNames?: boolean;
  readonly color?: boolean;
}

const exitCodes: Readonly<Record<Verdict, number>> = { ready: 0, adjust: 1, 'not-assessable': 2 };

/**
 * Checks each trial and prints its report as soon as it is there; with `--output` all of them at the end, or none.
 * Returns the highest exit code. A trial that cannot be read gets a report that says so, and the others go on.
 * @throws {UsageError | InputError} before any report, where marker set, session or output cannot be used.
 */
export async function checkCommand(
  trials: readonly string[],
  options: CheckOptions,
  context: CommandContext,
): Promise<number> {
  const { channels, signal } = context;
  await refuseToOverwriteInputs(trials, options);
  const engine = await context.engine.check();
  const checkOne = await prepare(engine, options, context);
  const toTerminal = options.output === undefined;
  const printer = await reportPrinter(options.format, {
    columns: toTerminal ? context.columns : 80,
    color: toTerminal ? context.color(options.color) : options.color === true,
    showNames: options.showNames === true,
  });

  const written: string[] = [];
  let exitCode = 0;
  const print = async (text: string) => {
    if (toTerminal) await channels.report(text);
    else written.push(text);
  };
  // Sentences on progress would run into a report that appears on the same screen.
  const tellsProgress = trials.length > 1 && context.sentencesAreSeen && !(toTerminal && context.reportIsSeen);
  for (const [index, path] of trials.entries()) {
    signal.throwIfAborted();
    if (!channels.open) break;
    if (tellsProgress) channels.say(`checking trial ${index + 1} of ${trials.length}, ${ownName(path)}.`);
    const report = await checkOne(path);
    signal.throwIfAborted();
    for (const problem of report.problems) {
      if (problem.code === 'file-unreadable') channels.say(`${ownName(path)}: ${asOneSentence(problem)}`);
    }
    exitCode = Math.max(exitCode, exitCodes[report.verdict]);
    await print(printer.add(report));
  }
  signal.throwIfAborted();
  await print(printer.end());
  if (options.output !== undefined) await writeOutputAtomically(options.output, written.join(''));
  return exitCode;
}

/** Marker set and session are read once; what comes back checks one trial and never throws. */
async function prepare(
  engine: CheckEngine,
  options: CheckOptions,
  { channels, debug }: CommandContext,
): Promise<(path: string) => Promise<Report>> {
  const markerSet = await readMarkerSet(engine, options.markerSet);
  const session = await readSession(engine, options.session);
  const norms = await readNorms(engine, markerSet, options.norms);

  const check: CheckBytes = (bytes, source) => engine.checkTrial(bytes, markerSet, session, source, norms);
  return (path) => checkTrialFile(path, check, options.frames, debug ? (error) => channels.trace(error) : undefined);
}

function asOneSentence({ message, remedy }: Problem): string {
  return remedy === '' ? message : `${message.replace(/\.$/, '')}; ${remedy[0]!.toLowerCase()}${remedy.slice(1)}`;
}

async function refuseToOverwriteInputs(trials: readonly string[], options: CheckOptions): Promise<void> {
  const { output } = options;
  if (output === undefined) return;
  const inputs = [
    ...trials,
    options.markerSet,
    ...[options.session, options.norms].filter((path) => path !== undefined),
  ];
  for (const input of inputs) {
    if (await isSameFile(output, input)) {
      throw new UsageError(`--output ${ownName(output)} would overwrite a file that is read; choose another name.`);
    }
  }
}
