import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command, Option } from 'commander';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { completedCommands } from '../../src/cli/completion/completed-commands.ts';
import { runInProcess } from './run-in-process.ts';

let folder: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
  for (const shell of ['bash', 'zsh', 'fish']) {
    writeFileSync(join(folder, `script.${shell}`), await script(shell));
  }
  mkdirSync(join(folder, 'work', 'visits'), { recursive: true });
  for (const name of ['standing.c3d', 'OLD.C3D', 'two words.c3d', 'our-lab.json', 'notes.txt']) {
    writeFileSync(join(folder, 'work', name), '');
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Names of the commands, as a person reads them. */
async function commandsInHelp(): Promise<string[]> {
  const { stdout } = await runInProcess(['--help']);
  const names = [
    ...stdout
      .split('\nCommands:\n')[1]!
      .split('\n\n')[0]!
      .matchAll(/^ {2}([a-z][a-z-]*)/gm),
  ].map(([, name]) => name!);
  expect(names).toEqual(expect.arrayContaining(['check', 'help']));
  return names.sort();
}

async function script(shell: string): Promise<string> {
  const { code, stdout, stderr } = await runInProcess(['completion', shell]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  return stdout;
}

const isInstalled = (shell: string): boolean => spawnSync(shell, ['--version']).status === 0;
const trials = ['OLD.C3D', 'standing.c3d', 'two words.c3d', 'visits'];

/** Command lines, the last word unfinished, and what can stand in its place. */
const cases: [words: string[], expected: string[]][] = [
  [[''], await commandsInHelp()],
  [['ch'], ['check']],
  [['check', ''], trials],
  [['check', 'standing.c3d', 't'], ['two words.c3d']],
  [['inspect', ''], trials],
  [['check', '--ma'], ['--marker-set']],
  [
    ['check', '--n'],
    ['--no-color', '--norms'],
  ],
  [
    ['check', '--marker-set', ''],
    ['lower-limb-medial-20', 'lower-limb-wands-22', 'our-lab.json', 'visits'],
  ],
  [
    ['check', '--session', ''],
    ['our-lab.json', 'visits'],
  ],
  [
    ['check', '--format', ''],
    ['html', 'json', 'jsonl', 'note', 'text'],
  ],
  [['inspect', '--format', 'jsonl'], ['jsonl']],
  [['check', '--output', 'no'], ['notes.txt']],
  [
    ['explain', 'heel-level'],
    ['heel-level', 'heel-level.left', 'heel-level.right'],
  ],
  [['explain', 'R_G'], ['R_GT']],
  [
    ['practice', 're'],
    ['record', 'repeat'],
  ],
  [['practice', 'sign-off', '--due'], ['--due']],
  [['explain', 'labels-sw'], ['labels-swapped']],
  [['explain', 'data-tr'], ['data-truncated']],
  [['explain', 'point-in'], ['point-in-line']],
  [['explain', 'not-a'], ['not-assessed']],
  [['explain', '--marker-set', 'lower-limb-m'], ['lower-limb-medial-20']],
  [
    ['completion', ''],
    ['bash', 'fish', 'zsh'],
  ],
  [['help', 'in'], ['inspect']],
];
const caseNames = cases.map(([words, expected]): [string, string[], string[]] => [words.join(' '), words, expected]);

describe('in bash', () => {
  function complete(words: readonly string[]): string[] {
    const program = `source ../script.bash
      COMP_WORDS=(setsquare "$@"); COMP_CWORD=$#
      _setsquare
      printf '%s\\n' "\${COMPREPLY[@]}"`;
    const printed = execFileSync('bash', ['--norc', '-c', program, 'bash', ...words], {
      cwd: join(folder, 'work'),
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    return printed.split('\n').filter(Boolean).sort();
  }

  it.skipIf(!isInstalled('bash')).each(caseNames)('setsquare %s', (_name, words, expected) => {
    expect(complete(words)).toEqual(expected);
  });

  it.skipIf(!isInstalled('bash'))('completes after an equals sign, which bash takes for a word', () => {
    expect(complete(['check', '--format', '=', 'js'])).toEqual(['json', 'jsonl']);
    expect(complete(['check', '--format', '='])).toEqual(['html', 'json', 'jsonl', 'note', 'text']);
  });

  it.skipIf(!isInstalled('bash'))('says no more than it knows, and nothing on standard error', () => {
    expect(complete(['check', '--frames', ''])).toEqual([]);
    expect(complete(['explain', 'qqq'])).toEqual([]);
    expect(execFileSync('bash', ['-n', join(folder, 'script.bash')]).toString()).toBe('');
  });

  it.skipIf(!isInstalled('bash'))('is registered for the command by loading the script', () => {
    const told = execFileSync('bash', [
      '--norc',
      '-c',
      'source "$1"; complete -p setsquare',
      'bash',
      join(folder, 'script.bash'),
    ]);
    expect(told.toString().trim()).toBe('complete -o filenames -F _setsquare setsquare');
  });
});

describe('in fish', () => {
  it.skipIf(!isInstalled('fish'))('offers the same', () => {
    const program = 'source ../script.fish; complete -C (string join " " -- setsquare $argv)';
    for (const [words, expected] of cases) {
      const printed = execFileSync('fish', ['--no-config', '-c', program, ...words], {
        cwd: join(folder, 'work'),
        encoding: 'utf8',
        env: { ...process.env, HOME: folder },
      });
      const candidates = printed.split('\n').filter(Boolean);
      const offered = new Set(candidates.map((line) => line.split('\t')[0]!.replace(/\/$/, '')));
      expect(offered, words.join(' ')).toEqual(new Set(expected));
    }
  });
});

describe('in zsh', () => {
  /** Presses the tab key twice in a shell of its own and reads what it lists. */
  function complete(words: readonly string[]): string {
    const program = `zmodload zsh/zpty
      zpty shell zsh -f -i
      zpty -w shell 'PS1=; autoload -U compinit; compinit -D -u; zstyle ":completion:*" list-colors ""; setopt no_beep; LISTMAX=10000; COLUMNS=400; source ../script.zsh; print RE""ADY'
      zpty -r -m shell answer '*READY*'
      zpty -n -w shell $'setsquare '"$1"$'\\t\\t'
      sleep 0.5
      zpty -r -t shell answer
      while zpty -r -t shell more; do answer+=$more; done
      print -r -- $answer`;
    return execFileSync('zsh', ['-f', '-c', program, 'zsh', words.join(' ')], {
      cwd: join(folder, 'work'),
      encoding: 'utf8',
      timeout: 20_000,
    });
  }

  // Each needs a shell of its own and most of a second.
  const few = ['', 'check', 'check --n', 'check --marker-set', 'explain R_G', 'help in'];

  it.skipIf(!isInstalled('zsh'))('offers the same', { timeout: 30_000 }, () => {
    const tried = cases.filter(([words]) => few.includes(words.join(' ').trim()));
    expect(tried).toHaveLength(few.length);
    for (const [words, expected] of tried) {
      const shown = complete(words);
      // One candidate is put in place with its spaces escaped; several are listed.
      for (const word of expected) expect(shown.replaceAll('\\', '')).toContain(word);
      if (expected.length > 1) expect(shown).not.toContain('notes.txt');
    }
  });
});

describe('every script', () => {
  it.each(['bash', 'zsh', 'fish'])(
    'for %s names each command and option of the help, and none that is hidden',
    async (shell) => {
      const text = await script(shell);
      const commands = await commandsInHelp();
      for (const command of commands) {
        expect(text).toContain(command);
        const { stdout } = await runInProcess(['help', command]);
        for (const [, flag] of stdout.matchAll(/^ {2}--([a-z-]+)/gm)) {
          expect(text, `${command} ${flag}`).toMatch(new RegExp(`(--|-l )${flag}\\b`));
        }
      }
    },
  );

  it('for zsh keeps a folder’s own file to its first line, and describes each option', async () => {
    const text = await script('zsh');
    expect(text).toMatch(/^#compdef setsquare\n/);
    expect(text).toContain("'--session=[what was recorded of the patient (.json)]:value:_files -g");
    expect(text).toContain("'check:check standing trials against a marker set'");
  });

  it('for fish offers commands only first', async () => {
    const text = await script('fish');
    expect(text).toContain("complete -c setsquare -n __fish_use_subcommand -a check -d 'check standing trials");
    expect(text).toContain(
      "complete -c setsquare -n '__fish_seen_subcommand_from check' -l format -x -k -a 'text json jsonl html note'",
    );
  });
});

describe('an unknown shell', () => {
  it('is refused in one sentence that names those there are', async () => {
    const { code, stdout, stderr } = await runInProcess(['completion', 'tcsh']);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(/^setsquare: [^\n]*tcsh[^\n]*bash, zsh, fish[^\n]*\n$/);
  });
});

describe('what can be completed', () => {
  it('follows the structure of any program', () => {
    const program = new Command('tool').option('--loud', 'say more');
    program
      .command('weigh')
      .summary('weigh things')
      .argument('<LIST.csv...>')
      .option('--scale <NAME>', 'scale to use')
      .option('--to <PATH>', 'where to')
      .addOption(new Option('--unit <UNIT>', 'unit').choices(['kg', 'lb']))
      .addOption(new Option('--secret', 'not for everybody').hideHelp());
    program.command('gone', { hidden: true });
    const { commands, options } = completedCommands(program, { NAME: ['big', 'small'] });
    expect(options.map(({ flag }) => flag)).toEqual(['--loud', '--help']);
    expect(commands.map(({ name }) => name)).toEqual(['weigh', 'help']);
    const [weigh] = commands;
    expect(weigh).toMatchObject({ argument: { words: [], endings: ['csv'] }, manyArguments: true });
    expect(Object.fromEntries(weigh!.options.map(({ flag, value }) => [flag, value]))).toEqual({
      '--scale': { words: ['big', 'small'], endings: null },
      '--to': { words: [], endings: [] },
      '--unit': { words: ['kg', 'lb'], endings: null },
      '--help': null,
      '--loud': null,
    });
  });
});
