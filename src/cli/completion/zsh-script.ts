import { anyCase } from './any-case.ts';
import type { Completed, CompletedOption, Values } from './completed-commands.ts';

export function zshScript({ name, options, commands }: Completed): string {
  return `#compdef ${name}
# Completes ${name} in zsh. Keep it as _${name} in a folder of fpath.
_${name}() {
  local context state state_descr line
  typeset -A opt_args
  _arguments -C ${options.map(optionSpec).join(' ')} '1:command:->command' '*::argument:->argument'
  case $state in
    command)
      local -a commands
      commands=(
${commands.map((command) => `        ${quoted(`${command.name}:${command.description}`)}`).join('\n')}
      )
      _describe command commands
      ;;
    argument)
      case $words[1] in
${commands
  .map(({ name: command, options: own, argument, manyArguments }) => {
    const place = quoted(`${manyArguments ? '*' : '1'}:argument:${action(argument)}`);
    return `        ${command}) _arguments ${[...own.map(optionSpec), place].join(' ')} ;;`;
  })
  .join('\n')}
      esac
      ;;
  esac
}
if [[ $funcstack[1] == _${name} ]]; then
  _${name} "$@"
else
  compdef _${name} ${name}
fi
`;
}

function optionSpec({ flag, description, value }: CompletedOption): string {
  const told = description.replaceAll(/[[\]\\:]/g, '\\$&');
  return quoted(value === null ? `${flag}[${told}]` : `${flag}=[${told}]:value:${action(value)}`);
}

function action({ words, endings }: Values): string {
  const listed = words.length === 0 ? '' : `compadd -- ${words.join(' ')}`;
  if (endings === null) return listed === '' ? ' ' : `{ ${listed} }`;
  // A pattern wholly in parentheses would be read as qualifiers.
  const globs = endings.map(anyCase);
  const glob = globs.length === 1 ? globs[0] : `(${globs.join('|')})`;
  const files = endings.length === 0 ? '_files' : `_files -g "*.${glob}"`;
  return listed === '' ? files : `{ ${listed}; ${files} }`;
}

function quoted(text: string): string {
  return `'${text.replaceAll("'", "'\\''")}'`;
}
