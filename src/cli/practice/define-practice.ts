import { type Command, Option } from 'commander';
import { manyOption, wholeNumber } from '../audit/audit-options.ts';
import { defaultMarkerSet, formatOption, notEmpty, portOption } from '../options.ts';
import type { PracticeOptions } from './practice-command.ts';
import type { RecordOptions } from './record-command.ts';
import type { RepeatOptions } from './repeat-command.ts';
import type { SignOffOptions } from './sign-off-command.ts';

/** What the commands of practice do when a command line names them. */
export interface PracticeActions {
  practice(folder: string | undefined, options: PracticeOptions): Promise<void>;
  practiceRecord(options: RecordOptions): Promise<void>;
  practiceRepeat(trials: readonly string[], options: RepeatOptions): Promise<void>;
  practiceSignOff(options: SignOffOptions): Promise<void>;
}

/** `practice` with its own commands. */
export function definePractice(program: Command, actions: PracticeActions): void {
  const practice = program
    .command('practice')
    .summary('train the eye: blinded trials, your verdict first')
    .description(
      'Shows standing trials without names and findings, one after the other. Write down your own verdict first: nothing to move, or which marker, which way, about how far. Then see what is right. Weak landmarks come back more often.',
    )
    .argument('[FOLDER]', 'folder with standing trials (.c3d), and all below it')
    .option('--made', 'trials made by the program, of invented people with known faults')
    .option('--trainee <CODE>', 'code of who practises; without it nothing is kept', notEmpty('--trainee'))
    .addOption(historyOption())
    .addOption(
      new Option('--trials <NUMBER>', 'trials of the session')
        .argParser(wholeNumber('--trials', fewestTrials, mostTrials))
        .default(usualTrials),
    )
    .option('--seed <NUMBER>', 'draws the same session again', wholeNumber('--seed', 0, 2 ** 31 - 1))
    .addOption(markerSetOption())
    .option('--norms <FILE>', 'how well-marked people differ (.json)', notEmpty('--norms'))
    .option('--terminal', 'in this terminal, in numbers, in place of a page')
    .addOption(portOption(usualPracticePort))
    .addHelpText('after', practiceExamples)
    .action((folder: string | undefined, options: PracticeOptions) => actions.practice(folder, options));
  const ofProgram = {
    showGlobalOptions: true,
    visibleGlobalOptions: () => program.createHelp().visibleGlobalOptions(practice),
  };

  practice
    .command('record')
    .summary('score, history and sign-offs of a trainee')
    .description(
      'Prints what a history holds of a trainee: score and history of each landmark, sign-offs with their due days. Without --trainee: what is due of everybody.',
    )
    .addOption(traineeOption())
    .addOption(historyOption())
    .addOption(markerSetOption())
    .option('--as-of <DAY>', 'day against which a due day is overdue (default: today)', notEmpty('--as-of'))
    .addOption(formatOption(['text', 'json', 'html']))
    .option('--output <PATH>', 'write it to a file, whole or not at all', notEmpty('--output'))
    .configureHelp(ofProgram)
    .addHelpText('after', recordExamples)
    // An option that practice has as well is read by it, wherever it stands.
    .action((_, command: Command) => actions.practiceRecord(command.optsWithGlobals()));

  practice
    .command('repeat')
    .summary('spread of repeated placings, skin marks removed')
    .description(
      'Compares standing trials of one subject whom the trainee marked anew each time, skin marks removed in between: the spread of one placing for each landmark and direction.',
    )
    .argument('<TRIAL.c3d...>', 'standing trials of one subject, one for each placing')
    .addOption(traineeOption())
    .addOption(historyOption())
    .addOption(markerSetOption())
    .option('--session <FILE>', 'what was recorded of the subject (.json)', notEmpty('--session'))
    .addOption(formatOption(['text', 'json']))
    .configureHelp(ofProgram)
    .addHelpText('after', repeatExamples)
    .action((trials: string[], _, command: Command) => actions.practiceRepeat(trials, command.optsWithGlobals()));

  practice
    .command('sign-off')
    .summary('write down that a landmark is signed off, and until when')
    .description(
      'Adds to the history that somebody stands for a trainee finding and placing a landmark, with the day on which it is due again. The laboratory decides who signs, and on what.',
    )
    .addOption(traineeOption())
    .option('--signer <CODE>', 'code of who signs, never the trainee', notEmpty('--signer'))
    .addOption(manyOption('--landmark <LANDMARK>', 'landmark, such as HEEL; may be given again'))
    .option('--due <DAY>', 'day on which it is due again', notEmpty('--due'))
    .option('--on <DAY>', 'day of the sign-off (default: today)', notEmpty('--on'))
    .option('--reason <TEXT>', 'why it is signed on little evidence, or withdrawn; no names', notEmpty('--reason'))
    .option('--withdraw', 'it no longer stands')
    .addOption(historyOption())
    .addOption(markerSetOption())
    .configureHelp(ofProgram)
    .addHelpText('after', signOffExamples)
    .action((_, command: Command) => actions.practiceSignOff(command.optsWithGlobals()));
}

function traineeOption(): Option {
  return new Option('--trainee <CODE>', 'code of who practises').argParser(notEmpty('--trainee'));
}

function markerSetOption(): Option {
  return new Option('--marker-set <NAME|FILE>', 'marker set that ships, or a .json file')
    .argParser(notEmpty('--marker-set'))
    .default(defaultMarkerSet);
}

function historyOption(): Option {
  return new Option('--history <FILE>', 'where answers and sign-offs are kept (.jsonl)')
    .argParser(notEmpty('--history'))
    .default('practice-history.jsonl');
}

/** Trials of a session: attention holds about so long (common practice). */
const usualTrials = 8;
const fewestTrials = 4;
const mostTrials = 20;
/** Not registered to anything; beside that of the page. */
const usualPracticePort = 7317;

const practiceExamples = `
At once, with no archive; open the address it prints in a browser:
  setsquare practice --made --trainee AB
With your laboratory's own trials and marker set:
  setsquare practice /data/static --trainee AB --marker-set our-lab.json
In this terminal, and the same session again:
  setsquare practice --made --trainee AB --terminal --seed 7

Exit code: 0 done, 130 ended by Ctrl-C (answers are kept), 2 not usable.`;

const recordExamples = `
On screen, or as a page to print and sign:
  setsquare practice record --trainee AB
  setsquare practice record --trainee AB --format html --output AB.html
What is due of everybody on a day:
  setsquare practice record --as-of 2026-12-31

Exit code: 0 done, 2 not usable. Overdue is said and changes no exit code.`;

const repeatExamples = `
Marked three times, each time with the skin marks removed:
  setsquare practice repeat one.c3d two.c3d three.c3d --trainee AB

Exit code: 0 done, 2 not usable.`;

const signOffExamples = `
Due again in a year:
  setsquare practice sign-off --trainee AB --signer CD --landmark HEEL --due 2027-11-30

Exit code: 0 written, 2 not usable, and nothing written.`;
