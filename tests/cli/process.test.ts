import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { writeC3d } from '../../src/core/c3d/write-c3d.ts';

const entry = fileURLToPath(new URL('run-as-process.ts', import.meta.url));

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function start(...argv: string[]) {
  const child = spawn(process.execPath, ['--import', 'tsx', entry, ...argv]);
  let stderr = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    stderr += text;
  });
  const ended = once(child, 'close').then(([code, signal]) => ({ code, signal, stderr }));
  return { child, ended };
}

function trial(): string {
  const path = join(folder, 'trial.c3d');
  const points = { pointCount: 1, frameCount: 1, labels: ['S1'], values: Float32Array.of(1, 2, 3, 0) };
  writeFileSync(path, writeC3d({ rateHz: 100, units: 'mm', ...points }));
  return path;
}

describe('the file that starts the program', () => {
  const bin = fileURLToPath(new URL('../../bin', import.meta.url));

  it('may be executed, as npx does in a clone', () => {
    expect(statSync(join(bin, 'setsquare.js')).mode & 0o111).toBe(0o111);
  });

  it('says in one sentence that nothing is built yet', () => {
    cpSync(bin, join(folder, 'bin'), { recursive: true });
    const { status, stderr } = spawnSync(join(folder, 'bin', 'setsquare.js'), ['--version'], { encoding: 'utf8' });
    expect(stderr).toBe('setsquare is not built yet; run npm ci && npm run build in its folder.\n');
    expect(status).toBe(2);
  });
});

describe('a process of its own', () => {
  it('exits 130 after Ctrl-C, without a word', async () => {
    const pipe = join(folder, 'pipe.c3d');
    execFileSync('mkfifo', [pipe]);
    const good = trial();
    const { child, ended } = start('inspect', good, pipe, good, '--format', 'jsonl');
    // The first line shows that it runs; it then waits for the pipe.
    await once(child.stdout, 'data');
    child.kill('SIGINT');
    await new Promise((done) => setTimeout(done, 100));
    writeFileSync(pipe, 'x');
    expect(await ended).toEqual({ code: 130, signal: null, stderr: '' });
  });

  it('is quiet and keeps its exit code when its reader leaves', async () => {
    const { child, ended } = start('inspect', ...Array<string>(3000).fill(trial()), '--format', 'jsonl');
    await once(child.stdout, 'data');
    child.stdout.destroy();
    expect(await ended).toEqual({ code: 0, signal: null, stderr: '' });
  });
});
