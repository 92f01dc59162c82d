import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { runInProcess } from './run-in-process.ts';

const folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
afterAll(() => rmSync(folder, { recursive: true }));

it('setsquare worksheet writes one page for paper, to a file or to standard output', async () => {
  const path = join(folder, 'worksheet.html');
  const written = await runInProcess(['worksheet', 'lower-limb-medial-20', '--output', path]);
  expect([written.code, written.stdout, written.stderr]).toEqual([0, '', '']);
  const printed = await runInProcess(['worksheet', 'lower-limb-medial-20']);
  expect(printed.stdout).toBe(readFileSync(path, 'utf8'));
  expect(printed.stdout).toMatch(/^<!doctype html><html lang="en">/);
});

it('setsquare worksheet refuses a set that is not there, and writes nothing', async () => {
  const path = join(folder, 'none.html');
  const { code, stderr } = await runInProcess(['worksheet', 'no-such-set', '--output', path]);
  expect(code).toBe(2);
  expect(stderr).toContain('No marker set is called no-such-set');
  expect(() => readFileSync(path)).toThrow();
});
