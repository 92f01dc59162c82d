import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readC3d } from '../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../src/core/c3d/read-points.ts';
import { writeC3d } from '../../src/core/c3d/write-c3d.ts';
import { validateClosedReport, validateReport } from '../core/report/report-schema.ts';
import { runInProcess } from './run-in-process.ts';

const samples = fileURLToPath(new URL('../../sample-trials/', import.meta.url));
const real = fileURLToPath(new URL('../../../shared/standing-trials/', import.meta.url));
const trialsIn = (folder: string) => readdirSync(folder).filter((name) => name.endsWith('.c3d'));
const sample = (name: string) => join(samples, `${name}.c3d`);

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function file(name: string, content: string | Uint8Array): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

const check = (...argv: string[]) => runInProcess(['check', ...argv]);

/** A sample again with each label changed. */
function relabelled(name: string, change: (label: string) => string): Uint8Array {
  const trial = readC3d(readFileSync(sample(name)));
  const { values } = readPoints(trial);
  const { pointCount, frameCount, rateHz, units, firstFrame } = trial;
  return writeC3d({ labels: trial.labels.map(change), pointCount, frameCount, rateHz, units, firstFrame, values });
}

describe('check', () => {
  it.each([
    ...trialsIn(samples).map((name) => [name, [join(samples, name)]] as const),
    ...trialsIn(real).map((name) => [name, [join(real, name), '--marker-set', 'lower-limb-medial-20']] as const),
  ])('prints a report that follows the schema: %s', async (_, argv) => {
    const { code, stdout, stderr } = await check(...argv, '--format', 'json');
    const report = JSON.parse(stdout);
    validateReport(report);
    expect(validateReport.errors).toBeNull();
    validateClosedReport(report);
    expect(validateClosedReport.errors).toBeNull();
    expect(code).toBe({ ready: 0, adjust: 1, 'not-assessable': 2 }[report.verdict as string]);
    expect(stderr).toBe('');
  });

  it.each([
    ['adult-well-placed', 0],
    ['wand-forward', 1],
    ['sacral-high', 1],
    ['heel-low', 1],
    ['epicondyles-swapped', 1],
    ['sides-swapped', 1],
    ['marker-missing', 1],
    ['metres-y-up', 0],
  ])('%s exits %i', async (name, code) => {
    expect((await check(sample(name))).code).toBe(code);
  });

  it('says which wand goes which way', async () => {
    const { stdout } = await check(sample('wand-forward'));
    const [, step] = stdout.split(/^ {2}1\. /m);
    expect(stdout).toMatch(/^1 step to do before walking\. \d+ of \d+ checks could be made\.\n/);
    // Planted: the tip of the right thigh wand 15 mm too far forward (sample-trials/README.md).
    expect(step).toMatch(/^[^.]*right thigh wand[^.]*backward[^.]*its\s+tip goes 1[3-7] mm/);
  });

  it('accepts a finding that the session waives with its reason', async () => {
    const { rules } = JSON.parse((await check(sample('heel-low'), '--format', 'json')).stdout);
    const failing = rules.filter((rule: { status: string }) => rule.status === 'fail');
    const accepted = failing.map(({ id }: { id: string }) => ({
      rule: id,
      reason: 'Foot on a wedge',
      by: 'AC',
      on: '2026-03-02',
    }));
    const session = file('session.json', JSON.stringify({ format: 'setsquare-session/1', accepted }));
    const { code, stdout } = await check(sample('heel-low'), '--session', session);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^Nothing to do before walking, with \d+ findings? accepted in the session/);
    expect(stdout).toContain('Foot on a wedge');
  });

  it('cannot judge a trial of other markers, and says what it looked for', async () => {
    const path = file(
      'other.c3d',
      relabelled('adult-well-placed', (label) => `X${label}X`),
    );
    const { code, stdout } = await check(path, '--format', 'json');
    expect(code).toBe(2);
    const { verdict, problems } = JSON.parse(stdout);
    expect(verdict).toBe('not-assessable');
    expect(problems.map(({ code }: { code: string }) => code)).toContain('marker-missing');
  });

  it.each([
    ['an empty file', new Uint8Array(0)],
    ['a text', 'This is a text and no trial at all. '.repeat(40)],
  ])('cannot read %s, and says so in the report and in one sentence', async (_, content) => {
    const { code, stdout, stderr } = await check(
      file('broken.c3d', content),
      sample('adult-well-placed'),
      '--format',
      'jsonl',
    );
    expect(code).toBe(2);
    const [broken, good] = stdout
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(broken.problems[0]).toMatchObject({ code: 'file-unreadable', severity: 'error' });
    expect(broken.rules).toHaveLength(good.rules.length);
    expect(good.verdict).toBe('ready');
    expect(stderr).toMatch(/^setsquare: broken\.c3d: [^\n]+\.\n$/);
    validateReport(broken);
    expect(validateReport.errors).toBeNull();
  });

  it('tells a truncated trial', async () => {
    const whole = readFileSync(sample('adult-well-placed'));
    const path = file('cut.c3d', whole.subarray(0, Math.floor(whole.length * 0.7)));
    const { stdout } = await check(path, '--format', 'json');
    const codes = JSON.parse(stdout).problems.map(({ code }: { code: string }) => code);
    expect(codes).toContain('file-truncated');
  });

  it('judges the frames that it is told to', async () => {
    const { stdout } = await check(sample('adult-well-placed'), '--frames', '20-80', '--format', 'json');
    expect(JSON.parse(stdout).trial.window).toMatchObject({ firstFrame: 20, lastFrame: 80 });
  });

  it('names file and place of a fault in a marker set and in a session', async () => {
    const shipped = JSON.parse(
      readFileSync(new URL('../../shared/marker-sets/lower-limb-wands-22.json', import.meta.url), 'utf8'),
    );
    shipped.markers[2].diameterMm = -1;
    const markerSet = file('our-lab.json', JSON.stringify(shipped));
    const bad = await check(sample('adult-well-placed'), '--marker-set', markerSet);
    expect([bad.code, bad.stdout]).toEqual([2, '']);
    expect(bad.stderr).toMatch(/^setsquare: our-lab\.json: [^\n]*\/markers\/2\/diameterMm[^\n]*\.\n$/);
    const session = file('session.json', '{"format": "setsquare-session/1", "subject": {"ageYears": -4}}');
    const worse = await check(sample('adult-well-placed'), '--session', session);
    expect([worse.code, worse.stdout]).toEqual([2, '']);
    expect(worse.stderr).toMatch(/^setsquare: session\.json: [^\n]*\/subject\/ageYears[^\n]*\.\n$/);
  });

  it('never prints the prefix of a label, and escapes what labels hold', async () => {
    const prefixed = file(
      'a.c3d',
      relabelled('wand-forward', (label) => `AnnaExample:${label}`),
    );
    const hostile = file(
      'b.c3d',
      relabelled('wand-forward', (label) => (label === 'R_GT' ? '\u001b[2J\u202eR_GT\u009b' : label)),
    );
    for (const format of ['text', 'json', 'jsonl']) {
      const one = await check(prefixed, '--format', format);
      expect(one.code).toBe(1);
      expect(one.stdout + one.stderr).not.toContain('AnnaExample');
      const two = await check(hostile, '--format', format);
      expect((two.stdout + two.stderr).replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
    }
  });

  it('prints the same bytes for the same input', async () => {
    for (const format of ['text', 'json', 'jsonl']) {
      const argv = [sample('wand-forward'), sample('marker-missing'), '--format', format];
      expect(await check(...argv)).toEqual(await check(...argv));
    }
  });

  it('keeps to 80 columns', async () => {
    const { stdout } = await check(...trialsIn(samples).map((name) => join(samples, name)));
    expect(stdout.split('\n').filter((line) => [...line].length > 80)).toEqual([]);
  });
});
