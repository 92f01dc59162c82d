import { Argument, Command, Option } from 'commander';
import { type AuditActions, defineAudit } from './audit/define-audit.ts';
import type { BlindSpotsOptions } from './blind-spots-command.ts';
import type { CheckOptions } from './check-command.ts';
import type { CompareOptions } from './compare-command.ts';
import type { CrosstalkOptions } from './crosstalk-command.ts';
import { defineMarkerSet, type MarkerSetActions } from './define-marker-set.ts';
import type { ExplainOptions } from './explain-command.ts';
import {
  blindSpotsExamples,
  checkExamples,
  compareExamples,
  completionExamples,
  crosstalkExamples,
  explainExamples,
  inspectExamples,
  measurementsExamples,
  pageExamples,
  programExamples,
  watchExamples,
  worksheetExamples,
} from './help-examples.ts';
import type { InspectOptions } from './inspect-command.ts';
import type { MeasurementsOptions } from './measurements-command.ts';
import { defineNorms, type NormsActions } from './norms/define-norms.ts';
import { defaultMarkerSet, formatOption, framesOption, notEmpty, portOption } from './options.ts';
import type { PageOptions } from './page-command.ts';
import { definePractice, type PracticeActions } from './practice/define-practice.ts';
import { defineStudy, type StudyActions } from './study/define-study.ts';
import type { WatchOptions } from './watch-command.ts';
import type { WorksheetOptions } from './worksheet-command.ts';

/** What the program does when a command line names a command. Loaded then and not before. */
export interface Actions extends AuditActions, MarkerSetActions, NormsActions, PracticeActions, StudyActions {
  check(trials: readonly string[], options: CheckOptions): Promise<void>;
  inspect(trials: readonly string[], options: InspectOptions): Promise<void>;
  explain(word: string | undefined, options: ExplainOptions): Promise<void>;
  compare(trials: readonly string[], options: CompareOptions): Promise<void>;
  crosstalk(trial: string, options: CrosstalkOptions): Promise<void>;
  worksheet(markerSet: string, options: WorksheetOptions): Promise<void>;
  measurements(session: string, options: MeasurementsOptions): Promise<void>;
  blindSpots(markerSet: string, options: BlindSpotsOptions): Promise<void>;
  page(options: PageOptions): Promise<void>;
  watch(folder: string, options: WatchOptions): Promise<void>;
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
    .configureHelp({ showGlobalOptions: true, subcommandTerm: commandWithArguments })
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
    .addOption(formatOption(['text', 'json', 'jsonl', 'html', 'note']))
    .option('--output <PATH>', 'write the report to a file, whole or not at all', notEmpty('--output'))
    .option('--show-names', 'name the files on a page (html), which names none otherwise')
    .option('--color', 'colour the text, whatever the terminal says')
    .option('--no-color', 'never colour the text')
    .addHelpText('after', checkExamples)
    .action((trials: string[], options: CheckOptions) => actions.check(trials, options));

  program
    .command('watch')
    .summary('check standing trials as they are captured, on a live page')
    .description(
      'Watches a folder and checks each standing trial as soon as it is written. A page of this machine, made to be seen from two metres, shows what to do, and after a correction what it changed.',
    )
    .argument('<FOLDER>', 'folder that the trials are written to, or one up to three above it')
    .addOption(markerSetOption())
    .option('--session <FILE>', 'what was recorded of the patient (.json)', notEmpty('--session'))
    .option('--norms <FILE>', 'how well-marked people differ, to weigh which marker is off', notEmpty('--norms'))
    .addOption(namesOption())
    .option('--existing', 'check the trials that are there already, too')
    .option('--poll', 'look every half second, for a share that tells of no changes')
    .addOption(portOption(usualWatchPort))
    .option('--show-names', 'name the files on the page, which names none otherwise')
    .addHelpText('after', watchExamples)
    .action((folder: string, options: WatchOptions) => actions.watch(folder, options));

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
    .command('worksheet')
    .summary('print a sheet for preparing a patient')
    .description(
      'Prints one HTML page for paper (A4, Letter): preparation, hand measurements by instrument, placement in the order of the protocol, variants, and when to stop.',
    )
    .argument('[NAME|FILE]', 'marker set that ships, or a .json file', defaultMarkerSet)
    .option('--session <FILE>', 'what is recorded already is filled in (.json)', notEmpty('--session'))
    .option('--output <PATH>', 'write the page to a file, whole or not at all', notEmpty('--output'))
    .addHelpText('after', worksheetExamples)
    .action((markerSet: string, options: WorksheetOptions) => actions.worksheet(markerSet, options));

  program
    .command('measurements')
    .summary('check the hand measurements of a session')
    .description(
      'Checks the hand measurements of a session by themselves, before any capture: which reading to take again, how it is taken, and why it is doubted.',
    )
    .argument('<SESSION.json>', 'what was recorded of the patient')
    .addOption(formatOption(['text', 'json']))
    .addHelpText('after', measurementsExamples)
    .action((session: string, options: MeasurementsOptions) => actions.measurements(session, options));

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

  defineStudy(program, actions);
  defineNorms(program, actions);

  program
    .command('crosstalk')
    .summary('check the knee axes by a knee bend')
    .description(
      'Says whether varus-valgus follows flexion in a knee bend or a walk, which turn of the knee axis would explain it, and whether the static trial says the same.',
    )
    .argument('<TRIAL.c3d>', 'a knee bend, or a walk, with the same markers')
    .requiredOption('--static <FILE>', 'the standing trial (.c3d)', notEmpty('--static'))
    .addOption(markerSetOption())
    .option('--session <FILE>', 'what was recorded of the patient (.json)', notEmpty('--session'))
    .option('--norms <FILE>', 'how well-marked people differ (.json)', notEmpty('--norms'))
    .addOption(formatOption(['text', 'json']))
    .addHelpText('after', crosstalkExamples)
    .action((trial: string, options: CrosstalkOptions) => actions.crosstalk(trial, options));

  defineMarkerSet(program, actions);
  defineAudit(program, actions);
  definePractice(program, actions);

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

/** Without `[options]`, which every command has: the words beside it need the room at 80 columns. */
function commandWithArguments(command: Command): string {
  const named = command.registeredArguments.map((argument) => {
    const name = `${argument.name()}${argument.variadic ? '...' : ''}`;
    return argument.required ? `<${name}>` : `[${name}]`;
  });
  return [command.name(), ...named].join(' ');
}

function namesOption(): Option {
  return new Option('--names <GLOB...>', 'names of standing trials: * any letters, ? one').argParser(
    (text: string, before: readonly string[] | undefined) => [...(before ?? []), notEmpty('--names')(text)],
  );
}

function markerSetOption(): Option {
  return new Option('--marker-set <NAME|FILE>', 'marker set that ships, or a .json file')
    .argParser(notEmpty('--marker-set'))
    .default(defaultMarkerSet);
}

/** Not registered to anything; any other would do. */
const usualPagePort = 7316;
/** Always the same, so that a page left open finds its way back. */
const usualWatchPort = 8474;
