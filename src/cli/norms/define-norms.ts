import { type Command, Option } from 'commander';
import { defaultMarkerSet, formatOption, notEmpty } from '../options.ts';
import { UsageError } from '../usage-error.ts';
import type { NormsOptions } from './norms-command.ts';

export interface NormsActions {
  norms(stores: readonly string[], options: NormsOptions): Promise<void>;
}

/** The command of a laboratory's own norms. */
export function defineNorms(program: Command, actions: NormsActions): void {
  program
    .command('norms')
    .summary("make the laboratory's own norms from its audit")
    .description(
      "Makes norms of how a laboratory's own well-marked people spread, from what an audit has stored, and says where they differ from those that ship.",
    )
    .argument('<STORE...>', 'stores of an audit, or parts (.parquet, .jsonl)')
    .option('--marker-set <NAME|FILE>', 'the set that the audit checked by', notEmpty('--marker-set'), defaultMarkerSet)
    .option('--name <NAME>', 'name of the norms', shortName)
    .addOption(
      new Option('--norms-version <VERSION>', 'version of the norms, such as 1.2.0')
        .argParser(version)
        .default('1.0.0'),
    )
    .addOption(formatOption(['text', 'json']))
    .option('--output <PATH>', 'write the norms to a file, whole or not at all', notEmpty('--output'))
    .addHelpText('after', normsExamples)
    .action((stores: string[], options: NormsOptions) => actions.norms(stores, options));
}

function version(text: string): string {
  if (/^\d{1,6}\.\d{1,6}\.\d{1,6}$/.test(text)) return text;
  throw new UsageError(`--norms-version is "${text}", expected three numbers such as 1.2.0.`);
}

function shortName(text: string): string {
  if (/^[a-z0-9]+(?:-[a-z0-9]+)*$/.test(text) && text.length <= 80) return text;
  throw new UsageError(`--name is "${text}", expected small letters, digits and hyphens, at most 80.`);
}

const normsExamples = `
From the store of an audit; look first, then write:
  setsquare audit /data/static --store /data/audit
  setsquare norms /data/audit
  setsquare norms /data/audit --output our-norms.json
With them from then on:
  setsquare check standing.c3d --norms our-norms.json

Exit code: 0 made, 2 too few people or not usable.`;
