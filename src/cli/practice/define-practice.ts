import { type Command, Option } from 'commander';
import { wholeNumber } from '../audit/audit-options.ts';
import { defaultMarkerSet, notEmpty, portOption } from '../options.ts';
import type { PracticeOptions } from './practice-command.ts';

/** What the commands of practice do when a command line names them. */
export interface PracticeActions {
  practice(folder: string | undefined, options: PracticeOptions): Promise<void>;
}

/** `practice` with its own commands. */
export function definePractice(program: Command, actions: PracticeActions): void {
  program
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
    .addOption(
      new Option('--marker-set <NAME|FILE>', 'marker set that ships, or a .json file')
        .argParser(notEmpty('--marker-set'))
        .default(defaultMarkerSet),
    )
    .option('--norms <FILE>', 'how well-marked people differ (.json)', notEmpty('--norms'))
    .option('--terminal', 'in this terminal, in numbers, in place of a page')
    .addOption(portOption(usualPracticePort))
    .addHelpText('after', practiceExamples)
    .action((folder: string | undefined, options: PracticeOptions) => actions.practice(folder, options));
}

export function historyOption(): Option {
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
