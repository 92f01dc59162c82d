import { spawn } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildDemoArchive } from '../../sample-trials/demo-archive.ts';

const root = new URL('../../', import.meta.url).pathname;
const command = join(root, 'bin/setsquare.js');
const folder = mkdtempSync(join(tmpdir(), 'setsquare-audit-'));
const archive = join(folder, 'archive');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(() => {
  for (const { path, content } of buildDemoArchive({ visits: 90, seed: 3 })) {
    mkdirSync(dirname(join(archive, path)), { recursive: true });
    writeFileSync(join(archive, path), content);
  }
  // A way round in a circle, which ends.
  symlinkSync(archive, join(archive, 'again'));
});

/** The built program, since its threads run what the build made. */
function run(
  argv: readonly string[],
  killAfterMs?: number,
): Promise<{ code: number | null; stdout: string; stderr: string }> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [command, ...argv], { cwd: folder });
    let stdout = '';
    let stderr = '';
    child.stdout.on('data', (chunk) => {
      stdout += chunk;
    });
    child.stderr.on('data', (chunk) => {
      stderr += chunk;
    });
    if (killAfterMs !== undefined) setTimeout(() => child.kill('SIGKILL'), killAfterMs);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
  });
}

const exported = async (store: string): Promise<string[]> => {
  const path = join(folder, `${store}.jsonl`);
  const parts = readdirSync(join(folder, store, 'parts')).map((name) => join(folder, store, 'parts', name));
  const { stderr } = await run(['audit', 'report', ...parts, '--export', path, '--format', 'json']);
  if (!existsSync(path)) throw new Error(stderr);
  return readFileSync(path, 'utf8').trim().split('\n').sort();
};

describe('setsquare audit', () => {
  it('finds the habit that was planted, past files that are no trials and a circle of links', async () => {
    const { code, stdout } = await run(['audit', archive, '--store', 'whole', '--format', 'json']);
    // Files that are no trials are told, and do not stop the rest.
    expect(code).toBe(2);
    expect(stdout).toMatch(/"CS"/);
    const text = (await run(['audit', archive, '--store', 'whole'])).stdout.replaceAll(/\s+/g, ' ');
    expect(text).toContain('Habit on both sides, assessor CS: Thigh wand in line with trochanter and epicondyle');
    expect(text).not.toMatch(/(Habit|Drift)[^:]*, assessor AK/);
  });

  it('checks a second time only what is new', async () => {
    const { stderr } = await run(['audit', archive, '--store', 'whole']);
    expect(stderr).toMatch(/ 0 trials checked, \d+ unchanged/);
  });

  it('killed at any moment loses nothing and doubles nothing', async () => {
    for (const ms of [150, 300, 450, 600, 900])
      await run(['audit', archive, '--store', 'killed', '--threads', '1'], ms);
    await run(['audit', archive, '--store', 'killed']);
    expect(await exported('killed')).toEqual(await exported('whole'));
  });

  it('in shares side by side is what one audit is', async () => {
    await Promise.all([1, 2].map((share) => run(['audit', archive, '--store', 'shares', '--share', `${share}/2`])));
    expect(await exported('shares')).toEqual(await exported('whole'));
  });

  it('draws the same sample for the same seed, and never names what was found', async () => {
    const parts = readdirSync(join(folder, 'whole/parts')).map((name) => join(folder, 'whole/parts', name));
    const [once, again, other] = await Promise.all(
      ['7', '7', '8'].map((seed) => run(['audit', 'sample', ...parts, '--n', '6', '--seed', seed])),
    );
    expect(once!.code).toBe(0);
    expect(again!.stdout).toBe(once!.stdout);
    expect(other!.stdout).not.toBe(once!.stdout);
    expect(once!.stdout.split('Reading list')[1]!.split('As a table')[0]).not.toMatch(/wand|adjust|ready|[A-Z]{2}, MR/);
  });

  it('exports no formula that a spreadsheet would run', async () => {
    const path = join(folder, 'rows.csv');
    await run(['audit', archive, '--store', 'whole', '--export', path]);
    for (const line of readFileSync(path, 'utf8').split('\n'))
      for (const cell of line.split(',')) expect(cell).not.toMatch(/^"?[=@]/);
  });
});
