import { Command } from 'commander';
import type { CheckOptions } from './check-command.ts';
import type { InspectOptions } from './inspect-command.ts';
import { defaultMarkerSet, formatOption, framesOption, laterOption, notEmpty } from './options.ts';

/** What the program does when a command line names a command. Loaded then and not before. */
export interface Actions {
  check(trials: readonly string[], options: CheckOptions): Promise<void>;
  inspect(trials: readonly string[], options: InspectOptions): Promise<void>;
}

interface HelpOutput {
  readonly columns: number;
  write(text: string): void;
}

/** The command line as commander reads it: usage errors are thrown, help is written to where `help` says. */
export function buildProgram(version: string, help: HelpOutput, actions: Actions): Command {
  const program = new Command('setsquare')
    .description(
      'Checks a standing trial of clinical movement analysis, while the patient still stands there: which marker needs a hand, which way, how many millimetres, and why.',
    )
    .version(version, '--version', 'print the version')
    .option('--debug', 'print where a fault arose')
    .helpOption('--help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .exitOverride()
    .configureHelp({ showGlobalOptions: true })
    .configureOutput({
      writeOut: help.write,
      writeErr: help.write,
      // What is wrong is said by whoever catches the error.
      outputError: () => {},
      getOutHelpWidth: () => help.columns,
      getErrHelpWidth: () => help.columns,
    })
    .addHelpText('after', programExamples);

  program
    .command('check')
    .summary('check standing trials against a marker set')
    .description('Checks each standing trial against a marker set and says what to do before walking.')
    .argument('<TRIAL.c3d...>', 'standing trials to check')
    .option(
      '--marker-set <NAME|FILE>',
      'marker set that ships, or a .json file',
      notEmpty('--marker-set'),
      defaultMarkerSet,
    )
    .option('--session <FILE>', 'what was recorded of the patient (.json)', notEmpty('--session'))
    .addOption(laterOption('--norms <FILE>', '--norms'))
    .addOption(framesOption())
    .addOption(formatOption(['text', 'json', 'jsonl'], ['html']))
    .option('--output <PATH>', 'write the report to a file, whole or not at all', notEmpty('--output'))
    .option('--color', 'colour the text, whatever the terminal says')
    .option('--no-color', 'never colour the text')
    .addHelpText('after', checkExamples)
    .action((trials: string[], options: CheckOptions) => actions.check(trials, options));

  program
    .command('inspect')
    .summary('say what is in C3D files')
    .description('Says what is in each C3D file, whatever marker set it was made for.')
    .argument('<TRIAL.c3d...>', 'files to inspect')
    .addOption(formatOption(['text', 'json', 'jsonl']))
    .addHelpText('after', inspectExamples)
    .action((trials: string[], options: InspectOptions) => actions.inspect(trials, options));

  return program;
}

const programExamples = `
Right after the capture, before walking:
  setsquare check standing.c3d
When labels or units look odd:
  setsquare inspect standing.c3d
More about a command:
  setsquare help check`;

const checkExamples = `
The trial that was just captured:
  setsquare check standing.c3d
With your laboratory's marker set and what was recorded of the patient:
  setsquare check standing.c3d --marker-set our-lab.json --session session.json
Only the frames in which the person stood still:
  setsquare check standing.c3d --frames 120-320
For a program, one report a line:
  setsquare check *.c3d --format jsonl --output reports.jsonl

Exit code: 0 ready to walk, 1 something to adjust, 2 not assessable or not usable;
over several trials the highest.`;

const inspectExamples = `
The points, their labels and where they are:
  setsquare inspect standing.c3d
For a program, one file a line:
  setsquare inspect *.c3d --format jsonl

Exit code: 0 every file could be decoded, at least in part; 2 one could not.`;
