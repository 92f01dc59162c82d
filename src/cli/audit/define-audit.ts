import { type Command, Option } from 'commander';
import { formatOption, notEmpty } from '../options.ts';
import { UsageError } from '../usage-error.ts';
import type { AuditOptions } from './audit-command.ts';
import { defaultMarkerSets, manyOption, shareOption, wholeNumber } from './audit-options.ts';
import type { AuditReportOptions } from './audit-report-command.ts';
import type { AuditSampleOptions } from './audit-sample-command.ts';

/** What the audit's commands do when a command line names them. */
export interface AuditActions {
  audit(folders: readonly string[], options: AuditOptions): Promise<void>;
  auditReport(parts: readonly string[], options: AuditReportOptions): Promise<void>;
  auditSample(parts: readonly string[], options: AuditSampleOptions): Promise<void>;
}

/** `audit` with its own commands. */
export function defineAudit(program: Command, actions: AuditActions): void {
  const audit = program
    .command('audit')
    .summary('check years of stored trials and say what they show together')
    .description(
      'Checks every standing trial below the folders, keeps the results, and says what many trials show and one does not: habits, drift, and which trials to look at again.',
    )
    .argument('[FOLDER...]', 'folders with trials (.c3d), and all below them')
    .option('--files-from <FILE>', 'a list of trials, one a line; - for standard input', notEmpty('--files-from'))
    .addOption(storeOption())
    .addOption(
      manyOption('--marker-set <NAME|FILE>', 'marker set; given again or "fit": each trial by the best fit').default(
        defaultMarkerSets,
        '"lower-limb-wands-22"',
      ),
    )
    .option('--norms <FILE>', 'how well-marked people differ (.json)', notEmpty('--norms'))
    .option(
      '--path-pattern <PATTERN>',
      'where paths tell {assessor}, {site}, {date}, {subject}; * and ** for the rest',
      notEmpty('--path-pattern'),
    )
    .option('--rehash', 'read every file again, also those that look unchanged')
    .option('--threads <NUMBER>', 'trials checked at the same time', wholeNumber('--threads', 1, 64))
    .addOption(shareOption())
    .addOption(auditFormat())
    .option('--output <PATH>', 'write the report to a file, whole or not at all', notEmpty('--output'))
    .option('--export <PATH>', 'write every result: .parquet, .csv or .jsonl', notEmpty('--export'))
    .option('--pages <FOLDER>', 'write a page for each trial to look at again', notEmpty('--pages'))
    .addOption(mostOption())
    .option('--show-names', 'name files, which are left out otherwise')
    .addHelpText('after', auditExamples)
    .action((folders: string[], options) => actions.audit(folders, options));
  const ofProgram = {
    showGlobalOptions: true,
    visibleGlobalOptions: () => program.createHelp().visibleGlobalOptions(audit),
  };

  audit
    .command('report')
    .summary('report on parts that several audits wrote')
    .description('Reads any number of parts and reports on them as if one audit had made them.')
    .argument('<PART...>', 'parts (.parquet, .jsonl), or stores with parts')
    .addOption(auditFormat())
    .option('--output <PATH>', 'write the report to a file, whole or not at all', notEmpty('--output'))
    .option('--export <PATH>', 'write every result: .parquet, .csv or .jsonl', notEmpty('--export'))
    .addOption(mostOption())
    .configureHelp(ofProgram)
    .addHelpText('after', reportExamples)
    // An option that the audit has as well is read by it, wherever it stands.
    .action((parts: string[], _, command: Command) => actions.auditReport(parts, command.optsWithGlobals()));

  audit
    .command('sample')
    .summary('draw trials for a second reader, and read the verdicts back')
    .description(
      'Draws a random sample that can be drawn again, from every assessor; or compares the verdicts of readers with those of setsquare and with each other.',
    )
    .argument('[PART...]', 'parts (.parquet, .jsonl), or stores with parts (default: "setsquare-audit")')
    .option('--n <NUMBER>', 'how many trials to draw', wholeNumber('--n', 1, 100_000))
    .option('--seed <NUMBER>', 'draws the same trials again', wholeNumber('--seed', 0, 2 ** 31))
    .addOption(manyOption('--verdicts <FILE>', 'a reading list that was filled in (.csv); may be given again'))
    .option('--as-of <DAY>', 'day against which a due day is overdue', notEmpty('--as-of'))
    .addOption(formatOption(['text', 'csv', 'json']))
    .option('--output <PATH>', 'write it to a file, whole or not at all', notEmpty('--output'))
    .option('--show-names', 'say where each trial lies, from the store')
    .configureHelp(ofProgram)
    .addHelpText('after', sampleExamples)
    .action((parts: string[], _, command: Command) => {
      const options = command.optsWithGlobals<AuditSampleOptions>();
      if (String(options.format) === 'html')
        throw new UsageError('--format html is not there for a sample; use text, csv or json.');
      return actions.auditSample(parts, options);
    });
}

function storeOption(): Option {
  return new Option('--store <FOLDER>', 'where results are kept between audits')
    .argParser(notEmpty('--store'))
    .default('setsquare-audit');
}

function auditFormat(): Option {
  return formatOption(['text', 'json', 'csv', 'html']);
}

function mostOption(): Option {
  return new Option('--most <NUMBER>', 'trials to look at again that are listed')
    .argParser(wholeNumber('--most', 1, 100_000))
    .default(50);
}

const auditExamples = `
Everything below a folder; again later, only what is new is checked:
  setsquare audit /data/static --store /data/audit
As a page, with a page for each trial to look at again:
  setsquare audit /data/static --format html --output audit.html --pages pages
Where file names tell who and when:
  setsquare audit /data --path-pattern "{site}/*/{date}_{assessor}_{subject}_*.c3d"
A list of files from another program:
  find /data -name "*static*.c3d" -print0 | setsquare audit --files-from -
The second of eight processes, each with its share of the files:
  setsquare audit /data/static --store /data/audit --share 2/8

Exit code: 0 done, 2 a file could not be read or no audit made, 130 stopped
by Ctrl-C: what was checked is kept, and the next audit goes on from there.`;

const reportExamples = `
What eight processes wrote into one store:
  setsquare audit report /data/audit
Parts from several machines:
  setsquare audit report a.parquet b.parquet --format html --output audit.html

Exit code: 0 done, 2 a file could not be read or a part not be used.`;

const sampleExamples = `
Twenty trials to read, as a table to fill in:
  setsquare audit sample --n 20 --seed 7 --format csv --output list.csv
What two readers wrote, against setsquare and against each other:
  setsquare audit sample --verdicts first.csv --verdicts second.csv

Exit code: 0 done, 2 not usable.`;
