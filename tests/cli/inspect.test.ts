import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { writeC3d } from '../../src/core/c3d/write-c3d.ts';
import { plannedEngine } from './planned-engine.ts';
import { runInProcess } from './run-in-process.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const inspect = (...argv: string[]) => runInProcess(['inspect', ...argv], { engine: plannedEngine().engine });

/** Two frames of two points, the second point never visible. */
function twoPoints(labels: string[] = ['Anna:R_GT', 'L_GT']): string {
  const path = join(folder, 'two.c3d');
  const values = Float32Array.of(1, 2, 3, 0, 0, 0, 0, -1, 2, 4, 3.5, 0, 0, 0, 0, -1);
  const trial = { rateHz: 100, units: 'mm', firstFrame: 12, labels, pointCount: 2, frameCount: 2, values };
  writeFileSync(path, writeC3d(trial));
  return path;
}

const markers = [
  { index: 0, label: 'Anna:R_GT', validFrames: 2, firstValid: [1, 2, 3], mean: [1.5, 3, 3.25] },
  { index: 1, label: 'L_GT', validFrames: 0, firstValid: null, mean: null },
];

describe('inspect', () => {
  it('prints the fields of the contract as json, with the path as given', async () => {
    const path = twoPoints();
    const { code, stdout, stderr } = await inspect(path, '--format', 'json');
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(JSON.parse(stdout)).toEqual({
      path,
      processor: 'intel',
      numberFormat: 'float',
      points: 2,
      frames: 2,
      firstFrame: 12,
      rateHz: 100,
      units: 'mm',
      labels: ['Anna:R_GT', 'L_GT'],
      markers,
      analog: { channels: 0, rateHz: null, samplesPerFrame: 0, signals: [] },
      plates: [],
      warnings: [],
    });
  });

  it('prints a page for people, with the name of the file only', async () => {
    const { code, stdout } = await inspect(twoPoints());
    expect(code).toBe(0);
    expect(stdout).toBe(`two.c3d
  2 points, 2 frames (12 to 13), 100 Hz, units mm
  float numbers, intel byte order

  label      frames  mean x    y    z  first x    y    z
  Anna:R_GT       2     1.5  3.0  3.3      1.0  2.0  3.0
  L_GT            0       -    -    -        -    -    -
`);
  });

  it('escapes labels on the page and in json', async () => {
    const path = twoPoints(['R\u001b[2J\u202eGT', 'é']);
    expect((await inspect(path)).stdout).toContain('R\\u001b[2J\\u202eGT');
    const { stdout } = await inspect(path, '--format', 'jsonl');
    expect(stdout.trimEnd()).not.toMatch(/[\p{Cc}\p{Cf}]/u);
    expect(JSON.parse(stdout).labels).toEqual(['R\u001b[2J\u202eGT', 'é']);
  });

  it('has a line for each file in jsonl, also for those that cannot be decoded', async () => {
    const good = twoPoints();
    const text = join(folder, 'text.c3d');
    writeFileSync(text, 'This is a text and no trial at all. '.repeat(40));
    const missing = join(folder, 'missing.c3d');
    const { code, stdout, stderr } = await inspect(text, good, missing, '--format', 'jsonl');
    expect(code).toBe(2);
    const lines = stdout
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(lines[0]).toEqual({ path: text, error: { code: 'not-c3d', message: expect.any(String), byteOffset: 1 } });
    expect(lines[1].points).toBe(2);
    expect(lines[2]).toEqual({
      path: missing,
      error: {
        code: 'file-unreadable',
        message: 'Cannot read the trial: there is no such file or folder; check the name and the folder.',
        byteOffset: null,
      },
    });
    expect(stderr.trimEnd().split('\n')).toEqual([
      expect.stringMatching(/^setsquare: text\.c3d: Not readable as C3D at byte 1: .*\.$/),
      'setsquare: missing.c3d: Cannot read the trial: there is no such file or folder; check the name and the folder.',
    ]);
  });

  it('says on standard error alone what the page cannot show', async () => {
    const empty = join(folder, 'empty.c3d');
    writeFileSync(empty, '');
    const { code, stdout, stderr } = await inspect(empty, twoPoints());
    expect(code).toBe(2);
    expect(stdout).toMatch(/^two\.c3d\n/);
    expect(stderr).toMatch(/^setsquare: empty\.c3d: [^\n]+\.\n$/);
  });

  it('prints an array for several files as json', async () => {
    const path = twoPoints();
    const several = JSON.parse((await inspect(path, path, '--format', 'json')).stdout);
    expect(several.map((file: { points: number }) => file.points)).toEqual([2, 2]);
  });

  it('refuses html', async () => {
    const { code, stderr } = await inspect(twoPoints(), '--format', 'html');
    expect({ code, stderr }).toEqual({
      code: 2,
      stderr: 'setsquare: --format is "html", expected text, json or jsonl.\n',
    });
  });

  const samples = new URL('../../../shared/c3d-samples/', import.meta.url);
  const files = readdirSync(samples, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.c3d'));

  // Source: independent decodes beside the public samples in ../shared/c3d-samples.
  it.each(files)('decodes the public sample as its independent decode says: %s', async (name) => {
    const path = new URL(name, samples).pathname;
    const expected = JSON.parse(readFileSync(path.replace(/\.c3d$/, '.expected.json'), 'utf8'));
    const { code, stdout } = await inspect(path, '--format', 'jsonl');
    const printed = JSON.parse(stdout);
    if (expected.readable === false) {
      expect([code, 'error' in printed]).toEqual([2, true]);
      return;
    }
    expect(code).toBe(0);
    expect(printed).toMatchObject({
      // The independent decode calls the big-endian processor by the name of its maker.
      processor: expected.processor === 'sgi' ? 'mips' : expected.processor,
      numberFormat: expected.format === 'int' ? 'int' : 'float',
      points: expected.points,
      frames: expected.frames,
      labels: expected.labels,
    });
  });
});
