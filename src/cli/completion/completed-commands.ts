import type { Argument, Command, Option } from 'commander';

/** What can stand in a place of the command line. */
export interface Values {
  readonly words: readonly string[];
  /** Endings of files that fit, without the dot; any file where it is empty, none at all where it is null. */
  readonly endings: readonly string[] | null;
}

export interface CompletedOption {
  /** `--marker-set` */
  readonly flag: string;
  readonly description: string;
  /** What follows it; null for a switch. */
  readonly value: Values | null;
}

export interface CompletedCommand {
  readonly name: string;
  readonly description: string;
  readonly options: readonly CompletedOption[];
  readonly argument: Values;
  /** Whether more arguments like the first may follow. */
  readonly manyArguments: boolean;
}

export interface Completed {
  readonly name: string;
  readonly options: readonly CompletedOption[];
  readonly commands: readonly CompletedCommand[];
}

/** Words that fit a placeholder, beside what commander knows: `NAME|FILE`, `WORD`. */
export type KnownWords = Readonly<Record<string, readonly string[]>>;

/** Every word that can stand for a format somewhere; an option is asked which it takes. */
const formats = ['text', 'json', 'jsonl', 'html', 'csv', 'md', 'svg', 'note'];

/** What of a program can be completed, as commander holds it: hidden options and commands are left out. */
export function completedCommands(program: Command, known: KnownWords): Completed {
  const help = program.createHelp();
  const commands = help.visibleCommands(program);
  const names = commands.map((command) => command.name());
  const options = (command: Command): CompletedOption[] =>
    help
      .visibleOptions(command)
      .flatMap((option) => (option.long ? [completedOption(option, option.long, known)] : []));
  const own = options(program);
  return {
    name: program.name(),
    options: own,
    commands: commands.map((command) => {
      const [argument] = command.registeredArguments;
      const isHelp = command.name() === 'help';
      return {
        name: command.name(),
        description: command.summary() || command.description(),
        options: isHelp ? [] : uniqueFlags([command, ...command.commands].flatMap(options), own),
        argument: isHelp ? { words: names, endings: null } : withOwn(command, argument, known),
        manyArguments: argument?.variadic ?? false,
      };
    }),
  };
}

/** Options of a command, of its own commands and of the program, each once. */
function uniqueFlags(options: readonly CompletedOption[], ofProgram: readonly CompletedOption[]): CompletedOption[] {
  const all = [...options, ...ofProgram.filter(({ flag }) => flag !== '--help')];
  return all.filter(({ flag }, at) => all.findIndex((one) => one.flag === flag) === at);
}

/** What may follow a command: its argument, or one of its own commands. */
function withOwn(command: Command, argument: Argument | undefined, known: KnownWords): Values {
  const { words, endings } = argument ? argumentValues(argument, known) : nothing;
  return { words: [...words, ...command.commands.map((own) => own.name())], endings };
}

const nothing: Values = { words: [], endings: null };

function completedOption(option: Option, flag: string, known: KnownWords): CompletedOption {
  const [, placeholder] = /[<[]([^>\]]+)/.exec(option.flags) ?? [];
  const { description } = option;
  if (placeholder === undefined) return { flag, description, value: null };
  if (placeholder === 'FORMAT') {
    return { flag, description, value: { words: formats.filter((word) => accepts(option, word)), endings: null } };
  }
  return { flag, description, value: values(placeholder, description, option.argChoices, known) };
}

function argumentValues(argument: Argument, known: KnownWords): Values {
  return values(argument.name().replace('...', ''), argument.description, argument.argChoices, known);
}

/** A placeholder says what it stands for: `TRIAL.c3d`, `FILE` (with the ending its description names), `PATH`. */
function values(placeholder: string, description: string, choices: string[] | undefined, known: KnownWords): Values {
  const words = choices ?? known[placeholder] ?? [];
  const [, ending] = /\.([a-z0-9]+)$/.exec(placeholder) ?? [];
  if (ending !== undefined) return { words, endings: [ending] };
  if (!/FILE|PATH|FOLDER/.test(placeholder)) return { words, endings: null };
  const endings = [...description.matchAll(/(?<=\W|^)\.([a-z0-9]+)\b/g)].map((match) => match[1]!);
  return { words, endings };
}

function accepts(option: Option, word: string): boolean {
  try {
    return option.parseArg === undefined || option.parseArg(word, undefined) === word;
  } catch {
    return false;
  }
}
