import { CommanderError } from 'commander';
import { InputError } from '../node/input-error.ts';
import { packageVersion } from '../node/package-root.ts';
import { Channels } from './channels.ts';
import { wantsColor } from './color.ts';
import type { CommandContext } from './command-context.ts';
import { type Engine, shippedEngine } from './engine.ts';
import type { Io } from './io.ts';
import { buildProgram } from './program.ts';
import { UsageError } from './usage-error.ts';

const cannotRun = 2;
const stoppedByCtrlC = 130;
const usualColumns = 80;

/**
 * Runs one command line (without the program's own name) and returns its exit code. Prints to the streams it is
 * given and leaves ending the process to the caller.
 */
export async function run(argv: readonly string[], io: Io, engine: Engine = shippedEngine): Promise<number> {
  const channels = new Channels(io);
  const stop = new AbortController();
  const onCtrlC = () => stop.abort();
  io.once?.('SIGINT', onCtrlC);
  const columns = io.stdout.columns || usualColumns;
  const debug = argv.includes('--debug');
  const context: CommandContext = {
    channels,
    engine,
    signal: stop.signal,
    columns,
    color: (flag) => wantsColor(flag, io),
    debug,
    reportIsSeen: io.stdout.isTTY === true,
    sentencesAreSeen: io.stderr.isTTY === true,
    stdin: () => io.stdin ?? nothing(),
  };

  let exitCode = 0;
  let help = '';
  const program = buildProgram(
    packageVersion(),
    {
      columns,
      write(text) {
        help += text;
      },
    },
    {
      async check(trials, options) {
        const { checkCommand } = await import('./check-command.ts');
        exitCode = await checkCommand(trials, options, context);
      },
      async inspect(trials, options) {
        const { inspectCommand } = await import('./inspect-command.ts');
        exitCode = await inspectCommand(trials, options, context);
      },
      async explain(word, options) {
        const { explainCommand } = await import('./explain-command.ts');
        exitCode = await explainCommand(word, options, context);
      },
      async markerSet(action, file, options) {
        const { markerSetCommand } = await import('./marker-set-command.ts');
        exitCode = await markerSetCommand(action, file, options, context);
      },
      async compare(trials, options) {
        const { compareCommand } = await import('./compare-command.ts');
        exitCode = await compareCommand(trials, options, context);
      },
      async norms(stores, options) {
        const { normsCommand } = await import('./norms/norms-command.ts');
        exitCode = await normsCommand(stores, options, context);
      },
      async study(design, options) {
        const { studyCommand } = await import('./study/study-command.ts');
        exitCode = await studyCommand(design, options, context);
      },
      async crosstalk(trial, options) {
        const { crosstalkCommand } = await import('./crosstalk-command.ts');
        exitCode = await crosstalkCommand(trial, options, context);
      },
      async worksheet(markerSet, options) {
        const { worksheetCommand } = await import('./worksheet-command.ts');
        exitCode = await worksheetCommand(markerSet, options, context);
      },
      async measurements(session, options) {
        const { measurementsCommand } = await import('./measurements-command.ts');
        exitCode = await measurementsCommand(session, options, context);
      },
      async blindSpots(markerSet, options) {
        const { blindSpotsCommand } = await import('./blind-spots-command.ts');
        exitCode = await blindSpotsCommand(markerSet, options, context);
      },
      async page(options) {
        const { pageCommand } = await import('./page-command.ts');
        exitCode = await pageCommand(options, context);
      },
      async watch(folder, options) {
        const { watchCommand } = await import('./watch-command.ts');
        exitCode = await watchCommand(folder, options, context);
      },
      async audit(folders, options) {
        const { auditCommand } = await import('./audit/audit-command.ts');
        exitCode = await auditCommand(folders, options, context);
      },
      async auditReport(parts, options) {
        const { auditReportCommand } = await import('./audit/audit-report-command.ts');
        exitCode = await auditReportCommand(parts, options, context);
      },
      async auditSample(parts, options) {
        const { auditSampleCommand } = await import('./audit/audit-sample-command.ts');
        exitCode = await auditSampleCommand(parts, options, context);
      },
      async practice(folder, options) {
        const { practiceCommand } = await import('./practice/practice-command.ts');
        exitCode = await practiceCommand(folder, options, context);
      },
      async practiceRecord(options) {
        const { recordCommand } = await import('./practice/record-command.ts');
        exitCode = await recordCommand(options, context);
      },
      async practiceRepeat(trials, options) {
        const { repeatCommand } = await import('./practice/repeat-command.ts');
        exitCode = await repeatCommand(trials, options, context);
      },
      async practiceSignOff(options) {
        const { signOffCommand } = await import('./practice/sign-off-command.ts');
        exitCode = await signOffCommand(options, context);
      },
      async completion(shell, program) {
        const { completionCommand } = await import('./completion-command.ts');
        exitCode = await completionCommand(shell, program, context);
      },
    },
  );
  try {
    await program.parseAsync(argv, { from: 'user' });
    return exitCode;
  } catch (error) {
    if (stop.signal.aborted) return stoppedByCtrlC;
    if (error instanceof CommanderError && error.exitCode === 0) {
      await channels.report(help);
      return 0;
    }
    if (debug) channels.trace(error);
    if (help !== '') io.stderr.write(help);
    else channels.say(sentenceFor(error));
    return cannotRun;
  } finally {
    io.off?.('SIGINT', onCtrlC);
  }
}

async function* nothing(): AsyncIterable<string> {}

function sentenceFor(error: unknown): string {
  if (error instanceof UsageError || error instanceof InputError) return error.message;
  if (error instanceof CommanderError) {
    const message = error.message
      .replace(/^error: /, '')
      .replace(/\.?\n/g, ' ')
      .replace(/\.$/, '');
    return `${message}; setsquare --help shows how.`;
  }
  const message = error instanceof Error ? error.message : String(error);
  return `a fault of the program: ${message}; run it again with --debug and report what it prints.`;
}
