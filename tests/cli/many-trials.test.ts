import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { closeSync, mkdirSync, mkdtempSync, openSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readC3d } from '../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../src/core/c3d/read-points.ts';
import { writeC3d } from '../../src/core/c3d/write-c3d.ts';

const entry = fileURLToPath(new URL('run-as-process.ts', import.meta.url));
const sample = fileURLToPath(new URL('../../sample-trials/wand-forward.c3d', import.meta.url));
/** Says at the end how much memory the process held at most. */
const sayPeak = 'data:text/javascript,process.on("exit",()=>console.error("peak",process.resourceUsage().maxRSS))';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const command = (...argv: string[]) => ['--import', 'tsx', entry, 'check', ...argv];
const times = (count: number, path: string) => Array.from({ length: count }, () => path);

/** The sample with force plates beside it, so that it weighs something and takes no longer to check. */
function heavyTrial(): { path: string; megabytes: number } {
  const file = readC3d(readFileSync(sample));
  const { frameCount, labels, pointCount, rateHz, units } = file;
  const channels = Array.from({ length: 60 }, (_, index) => `channel ${index}`);
  const bytes = writeC3d({
    labels,
    pointCount,
    frameCount,
    rateHz,
    units,
    values: readPoints(file).values,
    screen: { x: '+X', y: '+Z' },
    analog: { labels: channels, samplesPerFrame: 20, values: new Float32Array(60 * 20 * frameCount) },
  });
  const path = join(folder, 'heavy.c3d');
  writeFileSync(path, bytes);
  return { path, megabytes: bytes.length / 1e6 };
}

/** Checks a trial over and over in a process of its own; its peak memory and what it printed. */
function checkMany(count: number, path: string, format: string) {
  const printed = join(folder, 'printed');
  const out = openSync(printed, 'w');
  const argv = ['--import', sayPeak, ...command(...times(count, path), '--format', format)];
  const { status, stderr } = spawnSync(process.execPath, argv, { stdio: ['ignore', out, 'pipe'], encoding: 'utf8' });
  closeSync(out);
  expect({ status, stderr: stderr.replace(/\d+/, '#') }).toEqual({ status: 1, stderr: 'peak #\n' });
  return { peakMb: Number(/\d+/.exec(stderr)![0]) / 1024, text: readFileSync(printed, 'utf8') };
}

describe('a folder of trials', () => {
  it.each(['jsonl', 'json'])('takes no more memory than a few (%s)', (format) => {
    const { path, megabytes } = heavyTrial();
    const few = checkMany(20, path, format);
    const many = checkMany(320, path, format);
    const reports = format === 'json' ? JSON.parse(many.text) : many.text.trimEnd().split('\n');
    expect(reports.length).toBe(320);
    // 300 more. Keeping the bytes of each would take over 400 MB, keeping each report about 300 MB.
    expect(300 * megabytes).toBeGreaterThan(400);
    expect(many.peakMb - few.peakMb).toBeLessThan(120);
  });

  it('is checked to its end, whatever lies between', () => {
    const file = (name: string, content: string | Uint8Array) => {
      writeFileSync(join(folder, name), content);
      return join(folder, name);
    };
    mkdirSync(join(folder, 'folder.c3d'));
    const bad = [
      file('empty.c3d', ''),
      join(folder, 'folder.c3d'),
      file('text.c3d', 'time,x,y,z\n'.repeat(99)),
      join(folder, 'gone.c3d'),
      file('cut.c3d', readFileSync(sample).subarray(0, 700)),
    ];
    const trials = bad.flatMap((path) => [sample, path, sample]);
    const argv = command(...trials, '--format', 'jsonl');
    const { status, stdout, stderr } = spawnSync(process.execPath, argv, { encoding: 'utf8' });
    const reports = stdout
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(status).toBe(2);
    expect(reports.map((report) => report.trial.path)).toEqual(trials);
    expect(reports.map((report) => report.verdict)).toEqual(bad.flatMap(() => ['adjust', 'not-assessable', 'adjust']));
    expect(
      reports.filter((report) => report.verdict === 'not-assessable').map((report) => report.problems.length),
    ).not.toContain(0);
    // The one that is cut can be read in part: that is told in its report.
    expect(
      stderr
        .trimEnd()
        .split('\n')
        .map((line) => line.split(':')[1]!.trim()),
    ).toEqual(['empty.c3d', 'folder.c3d', 'text.c3d', 'gone.c3d']);
  });
});

describe('a reader who leaves', () => {
  it.each(['text', 'jsonl', 'json'])('ends it without a word (%s)', (format) => {
    const argv = [process.execPath, ...command(...times(320, sample), '--format', format)];
    const script = `"$@" | head -n 1 > ${join(folder, 'first')}; echo "\${PIPESTATUS[0]}"`;
    const { stdout, stderr } = spawnSync('bash', ['-c', script, 'bash', ...argv], { encoding: 'utf8' });
    expect(stderr).toBe('');
    expect(stdout).toBe('1\n');
    expect(readFileSync(join(folder, 'first'), 'utf8').length).toBeGreaterThan(0);
  });
});

describe('Ctrl-C in the middle', () => {
  it.each([null, 'what was there\n'])('leaves no half of --output (%j there before)', async (before) => {
    const output = join(folder, 'reports.json');
    const pipe = join(folder, 'pipe.c3d');
    if (before !== null) writeFileSync(output, before);
    execFileSync('mkfifo', [pipe]);
    const argv = command(...times(30, sample), pipe, ...times(30, sample), '--format', 'json', '--output', output);
    const child = spawn(process.execPath, argv);
    let printed = '';
    for (const stream of [child.stdout, child.stderr]) {
      stream.setEncoding('utf8').on('data', (text: string) => {
        printed += text;
      });
    }
    const ended = once(child, 'close');
    // Opens once the other end does: thirty trials are checked by then.
    const writer = await open(pipe, 'w');
    child.kill('SIGINT');
    await new Promise((done) => setTimeout(done, 100));
    await writer.close();
    expect(await ended).toEqual([130, null]);
    expect(printed).toBe('');
    expect(readdirSync(folder).sort()).toEqual(before === null ? ['pipe.c3d'] : ['pipe.c3d', 'reports.json']);
    if (before !== null) expect(readFileSync(output, 'utf8')).toBe(before);
  });
});
