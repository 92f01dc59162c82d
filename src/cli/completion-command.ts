import type { Command } from 'commander';
import { shippedMarkerSets } from '../node/read-marker-set-file.ts';
import type { CommandContext } from './command-context.ts';
import { bashScript } from './completion/bash-script.ts';
import { type Completed, completedCommands } from './completion/completed-commands.ts';
import { fishScript } from './completion/fish-script.ts';
import { zshScript } from './completion/zsh-script.ts';
import { allTopics } from './explain/all-topics.ts';
import { defaultMarkerSet } from './options.ts';
import { readMarkerSet } from './read-inputs.ts';

const scripts: Readonly<Record<string, (completed: Completed) => string>> = {
  bash: bashScript,
  zsh: zshScript,
  fish: fishScript,
};

/** Prints a script that completes command lines of this program in a shell, made from the program's own commands. */
export async function completionCommand(shell: string, program: Command, context: CommandContext): Promise<number> {
  const topics = await allTopics(await readMarkerSet(await context.engine.check(), defaultMarkerSet));
  const completed = completedCommands(program, {
    'NAME|FILE': await shippedMarkerSets(),
    WORD: [...new Set(topics.map(({ word }) => shellWord(word)))].sort(),
  });
  await context.channels.report(scripts[shell]!(completed));
  return 0;
}

/** One word of a shell, which explain understands as well: `not-assessed` for "not assessed". */
function shellWord(word: string): string {
  return word.replaceAll(/[^\w.-]+/g, '-');
}
