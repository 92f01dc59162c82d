import { anyCase } from './any-case.ts';
import type { Completed, CompletedCommand, CompletedOption, Values } from './completed-commands.ts';

/** For bash 3.2 and newer, which macOS still brings: no associative arrays, no mapfile. */
export function bashScript({ name, options, commands }: Completed): string {
  const names = commands.map((command) => command.name);
  const flags = options.map(({ flag }) => flag);
  return `# Completes ${name} in bash. Load it with: source <(${name} completion bash)
_${name}() {
  local current="\${COMP_WORDS[COMP_CWORD]}" previous="\${COMP_WORDS[COMP_CWORD-1]}"
  local command='' words='' files='' line i
  # An equals sign is a word of its own: --format=json comes as three.
  if [[ $current == '=' ]]; then
    current=''
  elif [[ $previous == '=' ]]; then
    previous="\${COMP_WORDS[COMP_CWORD-2]}"
  fi
  for ((i = 1; i < COMP_CWORD; i++)); do
    case "\${COMP_WORDS[i]}" in
      ${names.join('|')}) command="\${COMP_WORDS[i]}"; break ;;
    esac
  done
  case "$command $previous" in
${commands.flatMap((command) => command.options.flatMap((option) => valueCase(command, option))).join('\n')}
    *)
      case "$command $current" in
        ' '-*) words='${flags.join(' ')}' ;;
${commands.map((command) => `        '${command.name} '-*) words='${command.options.map(({ flag }) => flag).join(' ')}' ;;`).join('\n')}
        ' '*) words='${names.join(' ')}' ;;
${commands.map((command) => `        '${command.name} '*) ${assign(command.argument)} ;;`).join('\n')}
      esac ;;
  esac
  COMPREPLY=()
  while IFS= read -r line; do
    COMPREPLY+=("$line")
  done < <(
    compgen -W "$words" -- "$current"
    [[ -n $files ]] && compgen -f -X "!$files" -- "$current"
    [[ -n $files ]] && compgen -d -- "$current"
  )
}
complete -o filenames -F _${name} ${name}
`;
}

function valueCase(command: CompletedCommand, { flag, value }: CompletedOption): string[] {
  return value === null ? [] : [`    '${command.name} ${flag}') ${assign(value)} ;;`];
}

function assign({ words, endings }: Values): string {
  // Alternatives in a pattern need an option of bash that may be off.
  const files = endings === null ? '' : endings.length === 1 ? `*.${anyCase(endings[0]!)}` : '*';
  return `words='${words.join(' ')}' files='${files}'`;
}
