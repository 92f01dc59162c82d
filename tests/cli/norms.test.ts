import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildDemoArchive } from '../../sample-trials/demo-archive.ts';
import { runInProcess } from './run-in-process.ts';

const root = new URL('../../', import.meta.url).pathname;
const folder = mkdtempSync(join(tmpdir(), 'setsquare-norms-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);

/** The built program, since the threads of an audit run what the build made. */
function audit(visits: number, store: string): void {
  for (const { path, content } of buildDemoArchive({ visits, seed: 5 })) {
    mkdirSync(dirname(join(folder, store, 'archive', path)), { recursive: true });
    writeFileSync(join(folder, store, 'archive', path), content);
  }
  spawnSync(process.execPath, [
    join(root, 'bin/setsquare.js'),
    ...['audit', join(folder, store, 'archive'), '--store', join(folder, store, 'store')],
    ...['--path-pattern', '{site}/*/{date}_{assessor}_{subject}_*.c3d'],
  ]);
}
beforeAll(() => {
  audit(90, 'year');
  audit(20, 'month');
}, 60_000);

describe('setsquare norms', () => {
  it('says what changes in 80 columns, and writes nothing unless asked', async () => {
    const { code, stdout, stderr } = await runInProcess(['norms', at('year/store')]);
    expect(code).toBe(0);
    expect(stdout.replaceAll(/\s+/g, ' ')).toMatch(/^Norms lower-limb-wands-22-own 1\.0\.0 for .* from 90 people, /);
    expect(stdout).toContain('Spread, 1 SD');
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    expect(stderr).toContain('nothing was written');
  });

  it('writes norms that check weighs by, the same each time', async () => {
    const files = ['a.json', 'b.json'].map(at);
    for (const file of files) {
      const made = await runInProcess([
        'norms',
        at('year/store'),
        '--output',
        file,
        '--name',
        'ours',
        '--norms-version',
        '1.2.0',
      ]);
      expect(made.code).toBe(0);
    }
    expect(readFileSync(files[0]!, 'utf8')).toBe(readFileSync(files[1]!, 'utf8'));
    const trial = new URL('../../sample-trials/sacral-high.c3d', import.meta.url).pathname;
    const checked = async (...norms: string[]) => {
      const { stdout } = await runInProcess(['check', trial, '--format', 'json', ...norms]);
      return JSON.parse(stdout);
    };
    const [before, after] = [await checked(), await checked('--norms', files[0]!)];
    expect(after.norms).toEqual({ name: 'ours', version: '1.2.0', origin: 'laboratory' });
    // Rules alone pass or fail; what is weighed differs.
    expect(after.rules).toEqual(before.rules);
    expect(after.moves[0].marker).toBe('S1');
    expect(after.moves[0].probability).not.toBe(before.moves[0].probability);
  });

  it('names planted markers with more certainty, and nobody new', async () => {
    const own = at('weighed.json');
    await runInProcess(['norms', at('year/store'), '--output', own]);
    const movesOf = async (name: string, ...norms: string[]) => {
      const trial = new URL(`../../sample-trials/${name}.c3d`, import.meta.url).pathname;
      const { stdout } = await runInProcess(['check', trial, '--format', 'json', ...norms]);
      return JSON.parse(stdout).moves as { marker: string; probability: number }[];
    };
    for (const name of ['adult-well-placed', 'child-well-placed'])
      expect(await movesOf(name, '--norms', own), name).toEqual([]);
    for (const name of ['heel-low', 'wand-forward', 'turned-wands-both-sides', 'sacral-high']) {
      const [before, after] = [await movesOf(name), await movesOf(name, '--norms', own)];
      expect(after.map(({ marker }) => marker)).toEqual(before.map(({ marker }) => marker));
      expect(after.length, name).toBeGreaterThan(0);
      after.forEach(({ probability }, step) => expect(probability, name).toBeGreaterThan(before[step]!.probability));
    }
  });

  it('gives programs each rule before and after', async () => {
    const { stdout } = await runInProcess(['norms', at('year/store'), '--format', 'json']);
    const { format, norms, rules, leftOut } = JSON.parse(stdout);
    expect([format, norms.people, rules.length]).toEqual(['setsquare-norms-report/1', 90, 51]);
    expect(leftOut.unreadable).toBeGreaterThan(0);
  });

  it.each([
    [
      'too few people',
      () => ['norms', at('month/store'), '--output', at('none.json')],
      /found 20 people .* expected 60/,
    ],
    ['no store', () => ['norms', folder], /holds no part/],
    ['a version that is none', () => ['norms', at('year/store'), '--norms-version', '1'], /--norms-version is "1"/],
    ['another set', () => ['norms', at('year/store'), '--marker-set', 'lower-limb-medial-20'], /found 0 people/],
  ])('refuses %s in one sentence, and writes nothing', async (_, argv, says) => {
    const { code, stdout, stderr } = await runInProcess(argv());
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr.trim().split('\n')).toHaveLength(1);
    expect(stderr).toMatch(says);
    expect(existsSync(at('none.json'))).toBe(false);
  });
});
