import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { appendFileSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Withdrawal } from '../../src/core/practice/history.ts';
import { appendHistory, checkHistoryWritable, readHistory } from '../../src/practice/history-file.ts';

let folder: string;
let path: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
  path = join(folder, 'history.jsonl');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const line = (reason: string): Withdrawal => ({
  kind: 'withdrawal',
  trainee: 'AB',
  signer: 'CD',
  landmark: 'HEEL',
  on: '2026-11-25',
  reason,
});

describe('the history on disk', () => {
  it('is added to and never rewritten, for its owner alone', async () => {
    appendHistory(path, line('one'));
    const before = readFileSync(path, 'utf8');
    appendHistory(path, line('two'), line('three'));
    expect(readFileSync(path, 'utf8').startsWith(before)).toBe(true);
    expect((await readHistory(path)).lines.map((one) => (one as Withdrawal).reason)).toEqual(['one', 'two', 'three']);
    expect(statSync(path).mode & 0o777).toBe(0o600);
  });

  it('is empty where there is none, and loses to a torn line that line alone', async () => {
    expect(await readHistory(path)).toEqual({ lines: [], unread: 0 });
    appendHistory(path, line('one'));
    appendFileSync(path, '{"format":"setsquare-practice/1","kind":"withdr');
    appendHistory(path, line('two'));
    const { lines, unread } = await readHistory(path);
    expect(lines.map((one) => (one as Withdrawal).reason)).toEqual(['one', 'two']);
    expect(unread).toBe(1);
  });

  it('keeps what is hostile on its one line', async () => {
    appendHistory(path, line('"}\n{"format":"setsquare-practice/1"}\u001b[2J\u2028'));
    expect(readFileSync(path, 'utf8').split('\n')).toHaveLength(2);
    expect((await readHistory(path)).unread).toBe(0);
  });

  it('survives a kill in the middle of writing', async () => {
    const child = spawn(
      process.execPath,
      ['--import', 'tsx', fileURLToPath(new URL('append-forever.ts', import.meta.url)), path],
      { stdio: ['ignore', 'pipe', 'inherit'] },
    );
    await once(child.stdout, 'data');
    await new Promise((done) => setTimeout(done, 100));
    child.kill('SIGKILL');
    await once(child, 'exit');
    appendHistory(path, line('after'));
    const { lines, unread } = await readHistory(path);
    expect(lines.length).toBeGreaterThan(1);
    expect(unread).toBeLessThanOrEqual(1);
    const trainees = lines.map(({ trainee }) => trainee);
    expect(trainees.slice(0, -1)).toEqual(Array.from({ length: lines.length - 1 }, (_, day) => `T${day}`));
    expect((lines.at(-1) as Withdrawal).reason).toBe('after');
  });

  it('says beforehand that it cannot be written', () => {
    expect(() => checkHistoryWritable(join(folder, 'nowhere', 'history.jsonl'))).toThrow(
      'Cannot write the practice history',
    );
    expect(() => checkHistoryWritable(path)).not.toThrow();
    writeFileSync(path, '');
    expect(() => checkHistoryWritable(path)).not.toThrow();
  });
});
