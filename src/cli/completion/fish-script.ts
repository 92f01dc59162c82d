import type { Completed, CompletedCommand, Values } from './completed-commands.ts';

export function fishScript({ name, options, commands }: Completed): string {
  const line = (...parts: string[]): string =>
    ['complete', '-c', name, ...parts.filter((part) => part !== '')].join(' ');
  const first = '-n __fish_use_subcommand';
  return `# Completes ${name} in fish. Keep it as ~/.config/fish/completions/${name}.fish.
${line('-f')}
${options.map(({ flag, description }) => line(first, '-l', flag.slice(2), '-d', quoted(description))).join('\n')}
${commands.map((command) => line(first, '-a', command.name, '-d', quoted(command.description))).join('\n')}
${commands.flatMap((command) => linesOf(command).map((parts) => line(`-n '__fish_seen_subcommand_from ${command.name}'`, ...parts))).join('\n')}
`;
}

function linesOf({ options, argument }: CompletedCommand): string[][] {
  const lines = options.map(({ flag, description, value }) => {
    const takes = value === null ? [] : ['-x', ...candidates(value)];
    return ['-l', flag.slice(2), ...takes, '-d', quoted(description)];
  });
  const own = candidates(argument);
  return own.length === 0 ? lines : [...lines, own];
}

function candidates({ words, endings }: Values): string[] {
  const all = [...words, ...(endings === null ? [] : [filesWith(endings)])].join(' ');
  return all === '' ? [] : ['-k', '-a', quoted(all)];
}

/** Folders, and files with one of the endings; fish itself only puts those first. A tab parts name and description. */
function filesWith(endings: readonly string[]): string {
  const paths = '__fish_complete_path (commandline -ct)';
  if (endings.length === 0) return `(${paths})`;
  return `(${paths} | string match -rie "(?:/|\\.(?:${endings.join('|')}))(?:\\t.*)?\\$")`;
}

function quoted(text: string): string {
  return `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
}
