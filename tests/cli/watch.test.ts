import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runInProcess } from './run-in-process.ts';

const samples = fileURLToPath(new URL('../../sample-trials/', import.meta.url));
const entry = fileURLToPath(new URL('run-as-process.ts', import.meta.url));

let parent: string;
let folder: string;
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), 'setsquare-watch-'));
  folder = join(parent, 'visit');
  mkdirSync(folder);
});
afterEach(() => rmSync(parent, { recursive: true, force: true }));

/** Runs the command until `until` has been printed to either stream so often, then presses Ctrl-C. */
async function watching(argv: readonly string[], until: (printed: string) => boolean, act: () => void = () => {}) {
  const child = spawn(process.execPath, ['--import', 'tsx', entry, 'watch', ...argv, '--port', '0']);
  const printed = { stdout: '', stderr: '' };
  const listen = (name: 'stdout' | 'stderr') =>
    child[name].setEncoding('utf8').on('data', (text: string) => {
      printed[name] += text;
      if (printed.stderr.includes('the live page is at') && !started) {
        started = true;
        act();
      }
      if (started && until(printed.stdout + printed.stderr)) child.kill('SIGINT');
    });
  let started = false;
  listen('stdout');
  listen('stderr');
  const [code, signal] = await once(child, 'close');
  return { code, signal, ...printed };
}

describe('watch', () => {
  it('prints one line for each capture and its address once, and ends with 130 at Ctrl-C', async () => {
    const { code, signal, stdout, stderr } = await watching(
      [folder],
      (printed) => printed.includes('passed over') && printed.includes('1  standing'),
      () => {
        copyFileSync(join(samples, 'heel-low.c3d'), join(folder, 'standing-01.c3d'));
        copyFileSync(join(samples, 'heel-low.c3d'), join(folder, 'walk-01.c3d'));
      },
    );
    expect([code, signal]).toEqual([130, null]);
    expect(stdout).toBe(
      "1  standing-01.c3d: 1 step to do before walking. 49 of 51 checks could be made. First: Move the patient's left heel marker 11 mm up, away from the sole.\n",
    );
    expect(stderr).toMatch(
      /^setsquare: watching visit for \*static\*\.c3d, \*standing\*\.c3d, \*stand\*\.c3d; Ctrl-C ends it\.\nsetsquare: the live page is at http:\/\/127\.0\.0\.1:\d+\/\nsetsquare: passed over walk-01\.c3d: its name fits none of .*\.\n$/,
    );
  });

  it('takes the names it is given, and what is there already where it is asked to', async () => {
    copyFileSync(join(samples, 'adult-well-placed.c3d'), join(folder, 'cal01.c3d'));
    const { stdout } = await watching([folder, '--names', 'cal*.c3d', '--existing', '--poll'], (printed) =>
      printed.includes('cal01'),
    );
    expect(stdout).toMatch(/^1 {2}cal01\.c3d: Nothing found\. /);
  });

  it('waits for a folder that is not there, with the names the marker set states', async () => {
    const set = join(parent, 'our-lab.json');
    const shipped = await import('../../shared/marker-sets/lower-limb-wands-22.json', { with: { type: 'json' } });
    writeFileSync(set, JSON.stringify({ ...shipped.default, staticTrialNames: ['pose?.c3d'] }));
    const later = join(parent, 'later');
    const { code, stdout, stderr } = await watching(
      [later, '--marker-set', set, '--poll'],
      (printed) => printed.includes('pose1'),
      () => {
        mkdirSync(later);
        copyFileSync(join(samples, 'heel-low.c3d'), join(later, 'pose1.c3d'));
      },
    );
    expect(code).toBe(130);
    expect(stdout).toMatch(/^1 {2}pose1\.c3d: 1 step/);
    expect(stderr).toContain('later is not there; waiting for it.');
    expect(stderr).toContain('for pose?.c3d;');
  });

  it.each([
    [['watch'], /missing required argument 'FOLDER'/],
    [['watch', 'FILE'], /file\.c3d is a file, expected the folder that the trials are written to; name that\./],
    [['watch', 'FOLDER', '--port', '70000'], /--port is "70000", expected a number from 0 to 65535/],
    [['watch', 'FOLDER', '--names', ''], /--names is empty, expected a name or a path/],
    [['watch', 'FOLDER', '--marker-set', 'none-such'], /No marker set is called none-such/],
    [['watch', 'FOLDER', '--session', 'none.json'], /none\.json/],
  ] as const)('refuses %j', async (argv, says) => {
    writeFileSync(join(parent, 'file.c3d'), '');
    const given = argv.map((word) => ({ FOLDER: folder, FILE: join(parent, 'file.c3d') })[word as string] ?? word);
    const { code, stdout, stderr } = await runInProcess(given);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(says);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  });
});
