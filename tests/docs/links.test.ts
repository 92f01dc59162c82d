import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { runInProcess } from '../cli/run-in-process.ts';
import { linksOf, slugsOf } from './page-links.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const docs = readdirSync(join(root, 'docs'), { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('.md'))
  .map((path) => join('docs', path))
  .sort();
const pages = ['README.md', 'DEVELOPERS.md', join('sample-trials', 'README.md'), ...docs];
const read = (page: string): string => readFileSync(join(root, page), 'utf8');

describe('links', () => {
  it.each(pages)('of %s lead somewhere', (page) => {
    for (const { target, anchor } of linksOf(read(page))) {
      const path = target === '' ? page : join(dirname(page), target);
      expect(existsSync(join(root, path)), `${target} of ${page}`).toBe(true);
      if (anchor !== '') expect(slugsOf(read(path)), `${target}#${anchor} of ${page}`).toContain(anchor);
    }
  });

  it('are told broken when they are', () => {
    const found = linksOf('A [b](c.md#d), ![e](f.svg), [g](https://h.example/i), `[j](k.md)` and\n```\n[l](m)\n```');
    expect(found).toEqual([
      { target: 'c.md', anchor: 'd' },
      { target: 'f.svg', anchor: '' },
    ]);
    expect(slugsOf('# A `b`, c-d\n\n## Gaps, residuals and cameras')).toEqual([
      'a-b-c-d',
      'gaps-residuals-and-cameras',
    ]);
  });
});

/** Names of the commands in the help of the program. */
function commandsIn(help: string): string[] {
  const [list = ''] = help.split('\nCommands:\n')[1]!.split('\n\n');
  return [...list.matchAll(/^ {2}([a-z][a-z-]*)/gm)].map(([, name]) => name!);
}

describe('docs/README.md', () => {
  it('names every command', async () => {
    const commands = commandsIn((await runInProcess(['--help'])).stdout);
    const index = read('docs/README.md');
    expect(commands.length).toBeGreaterThan(10);
    expect(commands.filter((name) => name !== 'help' && !index.includes(`\`setsquare ${name}\``))).toEqual([]);
  });

  const linked = linksOf(read('docs/README.md')).map(({ target }) => relative('.', join('docs', target)));

  it('links every page of docs', () => {
    expect(docs.filter((page) => page !== 'docs/README.md' && !linked.includes(page))).toEqual([]);
  });

  it('links each of them once', () => {
    expect(linked.filter((page, index) => linked.indexOf(page) !== index)).toEqual([]);
  });

  it('is linked from README.md', () => {
    expect(linksOf(read('README.md')).map(({ target }) => target)).toContain('docs/README.md');
  });
});

describe('what the pages name', () => {
  const help = execFileSync(process.execPath, ['bin/setsquare.js', '--help'], { cwd: root, encoding: 'utf8' });
  const commands = commandsIn(help);
  const scripts = Object.keys(JSON.parse(read('package.json')).scripts);
  const code = ['src', 'scripts', 'tests', 'sample-trials', 'bench'].flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).map((path) => join('/', folder, path)),
  );

  it.each(pages)('%s: commands, scripts and files that there are', (page) => {
    const text = read(page);
    const fenced = [...text.matchAll(/^```sh\n([\s\S]*?)^```/gm)].map((match) => match[1]!).join('');
    for (const [, command] of `${text.match(/`setsquare [a-z][a-z-]*/g)?.join('\n') ?? ''}\n${fenced}`.matchAll(
      /^`?setsquare ([a-z][a-z-]*)/gm,
    )) {
      expect(commands).toContain(command);
    }
    for (const [, script] of text.matchAll(/npm run (?:--silent )?([a-z:]+)/g)) expect(scripts).toContain(script);
    for (const [, path] of text.matchAll(/`((?:[\w.-]+\/)*[\w.-]+\.ts)`/g)) {
      if (path!.startsWith('KIND') || path!.includes('/KIND')) continue;
      expect(
        code.some((file) => file.endsWith(`/${path}`)),
        path,
      ).toBe(true);
    }
  });
});
