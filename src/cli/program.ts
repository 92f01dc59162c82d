import { Argument, Command, Option } from 'commander';
import type { BlindSpotsOptions } from './blind-spots-command.ts';
import type { CheckOptions } from './check-command.ts';
import type { CompareOptions } from './compare-command.ts';
import type { ExplainOptions } from './explain-command.ts';
import type { InspectOptions } from './inspect-command.ts';
import type { MarkerSetAction, MarkerSetOptions } from './marker-set-command.ts';
import { defaultMarkerSet, formatOption, framesOption, notEmpty, portOption } from './options.ts';
import type { PageOptions } from './page-command.ts';

/** What the program does when a command line names a command. Loaded then and not before. */
export interface Actions {
  check(trials: readonly string[], options: CheckOptions): Promise<void>;
  inspect(trials: readonly string[], options: InspectOptions): Promise<void>;
  explain(word: string | undefined, options: ExplainOptions): Promise<void>;
  markerSet(action: MarkerSetAction, file: string | undefined, options: MarkerSetOptions): Promise<void>;
  compare(trials: readonly string[], options: CompareOptions): Promise<void>;
  blindSpots(markerSet: string, options: BlindSpotsOptions): Promise<void>;
  page(options: PageOptions): Promise<void>;
  completion(shell: string, program: Command): Promise<void>;
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
    .addOption(markerSetOption())
    .option('--session <FILE>', 'what was recorded of the patient (.json)', notEmpty('--session'))
    .option('--norms <FILE>', 'how well-marked people differ, to weigh which marker is off', notEmpty('--norms'))
    .addOption(framesOption())
    .addOption(formatOption(['text', 'json', 'jsonl', 'html']))
    .option('--output <PATH>', 'write the report to a file, whole or not at all', notEmpty('--output'))
    .option('--show-names', 'name the files on a page (html), which names none otherwise')
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

  program
    .command('explain')
    .summary('explain a rule, marker, problem or warning')
    .description('Explains a rule, a kind of rule, a marker, a problem, a warning or a word of a report.')
    .argument('[WORD]', 'what to explain; without it, a list of all that can be')
    .addOption(markerSetOption())
    .addHelpText('after', explainExamples)
    .action((word: string | undefined, options: ExplainOptions) => actions.explain(word, options));

  program
    .command('blind-spots')
    .summary('say what the checks of a marker set cannot see')
    .description(
      'Says for every marker and direction from what size on a check fails and the marker is named first, what no check sees, and what would show it.',
    )
    .argument('[NAME|FILE]', 'marker set that ships, or a .json file', defaultMarkerSet)
    .option('--trial <FILE>', 'compute it on the person in this standing trial', notEmpty('--trial'))
    .option('--session <FILE>', 'what was recorded of the patient (.json)', notEmpty('--session'))
    .option('--norms <FILE>', 'how well-marked people differ (.json)', notEmpty('--norms'))
    .addOption(formatOption(['text', 'json']))
    .addHelpText('after', blindSpotsExamples)
    .action((markerSet: string, options: BlindSpotsOptions) => actions.blindSpots(markerSet, options));

  program
    .command('compare')
    .summary('compare captures of one subject')
    .description(
      'Compares captures of the same subject with the first of them: each marker on its own segment, the posture apart from it, and what became of the steps that were asked for.',
    )
    .argument('<TRIAL.c3d...>', 'standing trials of one subject, the earlier first')
    .addOption(markerSetOption())
    .option('--session <FILE>', 'what was recorded of the patient (.json)', notEmpty('--session'))
    .addOption(formatOption(['text', 'json']))
    .addHelpText('after', compareExamples)
    .action((trials: string[], options: CompareOptions) => actions.compare(trials, options));

  program
    .command('marker-set')
    .summary('draft, check or show a marker set')
    .description(
      'Drafts a marker set with your own labels from a standing trial, checks a marker-set file, or shows a set.',
    )
    .addArgument(new Argument('<ACTION>', 'what to do').choices(['draft', 'check', 'show']))
    .argument('[FILE]', 'a standing trial to draft from; a marker set, by name or .json file')
    .option('--name <NAME>', 'name of the drafted set', 'our-lab')
    .addOption(formatOption(['text', 'json', 'svg']))
    .option('--output <PATH>', 'write the draft, or what is shown, to a file', notEmpty('--output'))
    .addHelpText('after', markerSetExamples)
    .action((action: MarkerSetAction, file: string | undefined, options: MarkerSetOptions) =>
      actions.markerSet(action, file, options),
    );

  program
    .command('page')
    .summary('check trials in a browser, on this computer alone')
    .description('Serves a page on which trials are dropped and checked, inside the browser: nothing is sent anywhere.')
    .addOption(portOption(usualPagePort))
    .addHelpText('after', pageExamples)
    .action((options: PageOptions) => actions.page(options));

  program
    .command('completion')
    .summary('print a script that completes command lines')
    .description('Prints a script with which a shell completes commands, options, names and files.')
    .addArgument(new Argument('<SHELL>', 'shell to complete in').choices(['bash', 'zsh', 'fish']))
    .addHelpText('after', completionExamples)
    .action((shell: string) => actions.completion(shell, program));

  return program;
}

function markerSetOption(): Option {
  return new Option('--marker-set <NAME|FILE>', 'marker set that ships, or a .json file')
    .argParser(notEmpty('--marker-set'))
    .default(defaultMarkerSet);
}

const programExamples = `
Right after the capture, before walking:
  setsquare check standing.c3d
When labels or units look odd:
  setsquare inspect standing.c3d
What a rule means and why it matters:
  setsquare explain heel-level
More about a command:
  setsquare help check`;

const checkExamples = `
The trial that was just captured:
  setsquare check standing.c3d
With your laboratory's marker set and what was recorded of the patient:
  setsquare check standing.c3d --marker-set our-lab.json --session session.json
Only the frames in which the person stood still:
  setsquare check standing.c3d --frames 120-320
A page to look at from beside the patient, and to print:
  setsquare check standing.c3d --format html --output report.html
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

const explainExamples = `
A rule that a report names, for both sides or for one:
  setsquare explain heel-level
  setsquare explain heel-level.left
How a marker is found, and what confirms it:
  setsquare explain R_GT
A rule or a label of your laboratory's own marker set:
  setsquare explain heel-level --marker-set our-lab.json
Everything that can be explained:
  setsquare explain

Exit code: 0 explained, 2 not known.`;

const blindSpotsExamples = `
What the set sees on an average adult with every marker on:
  setsquare blind-spots lower-limb-wands-22
What it sees on this patient, with the markers that were on:
  setsquare blind-spots --trial standing.c3d

Exit code: 0 printed, 2 not usable.`;

const compareExamples = `
The capture after a correction against the one before:
  setsquare compare standing-1.c3d standing-2.c3d
The same subject marked by two assessors, for a program:
  setsquare compare assessor-a.c3d assessor-b.c3d --format json

Exit code: 0 compared, 2 not usable.`;

const markerSetExamples = `
A set of your own, from a trial of somebody who stands, labelled or not:
  setsquare marker-set draft standing.c3d --output our-lab.json
Whether it can be used, or what is wrong with it and where:
  setsquare marker-set check our-lab.json
Its markers as a list, or as a picture:
  setsquare marker-set show our-lab.json
  setsquare marker-set show our-lab.json --format svg --output our-lab.svg

Exit code: 0 done, 2 not usable.`;

/** Not registered to anything; any other would do. */
const usualPagePort = 7316;

const pageExamples = `
On this computer, until Ctrl-C:
  setsquare page
On whatever port is free:
  setsquare page --port 0`;

const completionExamples = `
In this shell, from now on:
  source <(setsquare completion bash)
For good:
  setsquare completion bash > ~/.local/share/bash-completion/completions/setsquare
  setsquare completion zsh > ~/.zfunc/_setsquare          # with fpath+=~/.zfunc before compinit
  setsquare completion fish > ~/.config/fish/completions/setsquare.fish`;
