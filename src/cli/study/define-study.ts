import type { Command } from 'commander';
import { formatOption, notEmpty } from '../options.ts';
import type { StudyOptions } from './study-command.ts';

export interface StudyActions {
  study(design: string, options: StudyOptions): Promise<void>;
}

const studyExamples = `
Three assessors, five volunteers, two sessions each, as written in study.json:
  setsquare study study.json
As a page with plots, for the quality folder:
  setsquare study study.json --format html --output repeatability.html

Exit code: 0 worked out from every capture, 2 one could not be used, or nothing.`;

/** The command of repeatability studies. */
export function defineStudy(program: Command, actions: StudyActions): void {
  program
    .command('study')
    .summary('say how well placement repeats, within and between assessors')
    .description(
      'Works out a repeatability study: every marker and joint angle of subjects whom assessors marked again and again, what they differ by, and what that costs in degrees.',
    )
    .argument('<DESIGN.json>', 'who marked whom, when, and in which trial')
    .option('--marker-set <NAME|FILE>', 'in place of the one that the design names', notEmpty('--marker-set'))
    .addOption(formatOption(['text', 'json', 'html']))
    .option('--output <PATH>', 'write the report to a file, whole or not at all', notEmpty('--output'))
    .addHelpText('after', studyExamples)
    .action((design: string, options: StudyOptions) => actions.study(design, options));
}
