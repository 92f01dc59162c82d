import { Argument, type Command } from 'commander';
import { markerSetExamples } from './help-examples.ts';
import type { MarkerSetAction, MarkerSetOptions } from './marker-set-command.ts';
import { formatOption, notEmpty } from './options.ts';

export interface MarkerSetActions {
  markerSet(action: MarkerSetAction, file: string | undefined, options: MarkerSetOptions): Promise<void>;
}

/** The command of marker sets. */
export function defineMarkerSet(program: Command, actions: MarkerSetActions): void {
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
}
