import type { TrialSource } from '../core/report/assemble-report.ts';
import { ownName } from '../core/report/own-name.ts';
import type { Problem, Report, Verdict } from '../core/report/report.ts';
import { InputError } from '../node/input-error.ts';
import { isSameFile } from '../node/is-same-file.ts';
import { readTrialFile } from '../node/read-trial-file.ts';
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

  const check = (bytes: Uint8Array, source: TrialSource) => engine.checkTrial(bytes, markerSet, session, source, norms);
  const frames = options.frames === undefined ? {} : { frames: options.frames };
  const unreadable = (path: string, sha256: string, problem: Problem): Report => {
    const emptied = check(new Uint8Array(0), { path, sha256 });
    return { ...emptied, verdict: 'not-assessable', problems: [problem] };
  };

  return async (path) => {
    let sha256 = '';
    let report: Report;
    try {
      const file = await readTrialFile(path);
      sha256 = file.sha256;
      report = check(file.bytes, { path, sha256, ...frames });
    } catch (error) {
      if (debug) channels.trace(error);
      report = unreadable(path, sha256, problemFrom(error));
    }
    return report;
  };
}

function problemFrom(error: unknown): Problem {
  const base = { code: 'file-unreadable', severity: 'error', markers: [] } as const;
  if (error instanceof InputError) {
    return {
      ...base,
      message: `${error.found}.`,
      remedy: `${error.remedy[0]!.toUpperCase()}${error.remedy.slice(1)}.`,
    };
  }
  return {
    ...base,
    message: `The check of this trial stopped at a fault of the program: ${error instanceof Error ? error.message : String(error)}.`,
    remedy: 'Report it with the output of --debug, and rely on palpation and the protocol meanwhile.',
  };
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
