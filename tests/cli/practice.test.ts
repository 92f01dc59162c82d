import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runInProcess } from './run-in-process.ts';

const samples = fileURLToPath(new URL('../../sample-trials/', import.meta.url));
let folder: string;
let history: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
  history = join(folder, 'history.jsonl');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const practise = (args: readonly string[], typed: readonly string[] = []) =>
  runInProcess(['practice', ...args, '--terminal', '--history', history], { typed, columns: 80 });
const kept = () =>
  readFileSync(history, 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
const widest = (text: string) => Math.max(...text.split('\n').map((line) => line.length));

describe('setsquare practice in a terminal', () => {
  it('shows the figure, takes the verdict, keeps it, and only then tells', async () => {
    const { code, stdout, stderr } = await practise(
      ['--made', '--trials', '4', '--seed', '7', '--trainee', 'AB'],
      ['L_HEEL down 10', 'nothing', 'nothing', 'nothing'],
    );
    expect([code, stderr]).toEqual([0, `setsquare: answers of AB are kept in ${history}.\n`]);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
    const [before, after] = stdout.split('> ') as [string, string];
    expect(before).not.toMatch(/moved|goes back|Missed|Found/);
    expect(after).toMatch(/In this made trial the patient's left heel marker was moved\. It goes back 12 mm\ndown/);
    expect(after.replaceAll(/\s+/g, ' ')).toContain(
      "Found: the patient's left heel marker. The way is right, the distance 2 mm too short.",
    );
    expect(kept().map(({ kind }) => kind)).toEqual(['session', 'answer', 'answer', 'answer', 'answer']);
    expect(kept()[1]).toMatchObject({
      trainee: 'AB',
      basis: 'planted',
      written: [{ marker: 'L_HEEL', way: 'down', mm: 10 }],
      scored: [{ outcome: 'found', wayRight: true, landmark: 'HEEL' }],
    });
  });

  it('asks again for what it cannot read, and keeps what was answered when the input ends', async () => {
    const { code, stdout } = await practise(
      ['--made', '--trials', '4', '--seed', '7', '--trainee', 'AB'],
      ['KNEE up', '?', 'nothing'],
    );
    expect(code).toBe(0);
    expect(stdout).toContain('"KNEE" is none of the markers of this figure');
    expect(stdout).toContain('R_LE    outer knee marker: forward, toward the kneecap');
    expect(stdout.endsWith('\n')).toBe(true);
    expect(kept()).toHaveLength(2);
  });

  it('is the same session for the same seed, whatever was answered before', async () => {
    const once = ['--made', '--trials', '4', '--seed', '7', '--trainee', 'AB'];
    const figures = (text: string) => text.split('Trial 1 of 4')[1]!.split('> ')[0];
    const first = await practise(once, ['nothing', 'nothing', 'nothing', 'nothing']);
    const second = await practise(once, ['nothing', 'nothing', 'nothing', 'nothing']);
    expect(figures(second.stdout)).toBe(figures(first.stdout));
    const missed = kept().flatMap(({ kind, scored }) => (kind === 'answer' ? [scored[0]?.marker] : []));
    expect(missed.slice(4)).toEqual(missed.slice(0, 4));
  });

  it('names no file before, after or in the history, and says that the program is not the truth', async () => {
    const trials = join(folder, 'Meyer_Anna');
    mkdirSync(trials);
    cpSync(join(samples, 'heel-low.c3d'), join(trials, 'Meyer heel low.c3d'));
    writeFileSync(join(trials, 'broken.c3d'), 'no trial');
    cpSync(join(samples, 'wand-forward.c3d'), join(trials, 'Meyer wand.c3d'));
    writeFileSync(join(trials, 'Meyer wand.session.json'), '{');
    const { code, stdout, stderr } = await practise([trials, '--trainee', 'AB'], ['L_HEEL up 11']);
    expect(code).toBe(0);
    expect(stderr.replaceAll(/\s+/g, ' ')).toContain(
      '3 trials found, 3 checked; left out: 1 not assessable, 1 with a session file that is refused.',
    );
    expect(stdout).toContain("The program would move the patient's left heel marker 11 mm up");
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain('The program is not the truth');
    for (const text of [stdout, stderr, readFileSync(history, 'utf8')]) expect(text).not.toMatch(/Meyer|Anna|low\.c3d/);
    expect(kept()[1]).toMatchObject({ basis: 'program', trial: expect.stringMatching(/^[0-9a-f]{64}$/) });
  });

  it.each([
    [['--trials', '4'], 'practice needs a folder with standing trials, or --made'],
    [['--made', '--trainee', 'Anna Meyer'], 'expected a code without spaces such as AB, and never a name'],
    [['--made', '--trials', '3'], '--trials is "3", expected a whole number from 4 to 20'],
    [['nowhere'], 'Cannot open the folder'],
  ])('refuses %o', async (args, sentence) => {
    const { code, stdout, stderr } = await practise(args);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain(sentence);
  });

  it('refuses a history that could not be written before anybody answers', async () => {
    const nowhere = join(folder, 'nowhere', 'history.jsonl');
    const argv = ['practice', '--made', '--terminal', '--trainee', 'AB', '--history', nowhere];
    const { code, stdout, stderr } = await runInProcess(argv, { typed: ['nothing'] });
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('Cannot write the practice history');
  });

  it('keeps nothing without a code', async () => {
    const { stderr } = await practise(['--made', '--trials', '4'], ['nothing']);
    expect(stderr).toContain('nothing is kept');
    expect(existsSync(history)).toBe(false);
  });
});

describe('setsquare practice sign-off and record', () => {
  const run = (...argv: string[]) => runInProcess(['practice', ...argv, '--history', history], { columns: 80 });
  beforeEach(async () => {
    await practise(['--made', '--trials', '4', '--seed', '7', '--trainee', 'AB'], ['L_HEEL down 10']);
  });
  const sign = (...more: string[]) =>
    run('sign-off', '--trainee', 'AB', '--signer', 'CD', '--landmark', 'l_heel', '--on', '2027-01-10', ...more);

  it('writes a line with what it rests on, and shows when it is overdue', async () => {
    const signed = await sign('--due', '2027-03-01', '--reason', 'seen at \u001b[31mthree patients');
    expect([signed.code, signed.stdout]).toEqual([
      0,
      'heel marker of AB: signed off by CD on 2027-01-10, due 2027-03-01.\n',
    ]);
    expect(kept().at(-1)).toMatchObject({
      kind: 'sign-off',
      landmark: 'HEEL',
      evidence: { asked: 1, right: 1, made: 1 },
    });
    const record = async (asOf: string) => (await run('record', '--trainee', 'AB', '--as-of', asOf)).stdout;
    expect(await record('2027-03-01')).toMatch(/heel marker {2}CD {2}2027-01-10 {2}2027-03-01 {2}due in 0 days/);
    expect(await record('2027-03-02')).toMatch(/OVERDUE by 1 day\n/);
    expect(await record('2027-03-02')).toContain('\\u001b[31m');
    expect(await record('2027-03-02')).not.toContain('\u001b');
    expect(widest(await record('2027-03-02'))).toBeLessThanOrEqual(80);
    expect((await run('record', '--as-of', '2027-03-02')).stdout).toContain('1 landmark signed off, 1 overdue');
    const { landmarks } = JSON.parse(
      (await run('record', '--trainee', 'AB', '--format', 'json', '--as-of', '2027-03-02')).stdout,
    );
    const heel = landmarks.find(({ landmark }: { landmark: string }) => landmark === 'HEEL');
    expect([heel.signOff.state, heel.made.interval]).toEqual(['overdue', null]);
  });

  it('is withdrawn by a line more, with a reason', async () => {
    expect((await sign('--withdraw', '--reason', 'none')).stderr).toContain('is not signed off on 2027-01-10');
    await sign('--due', '2027-03-01', '--reason', 'seen');
    expect((await sign('--withdraw')).stderr).toContain('--withdraw needs --reason');
    expect((await sign('--withdraw', '--reason', 'heel taken too low')).code).toBe(0);
    expect(kept().map(({ kind }) => kind)).toEqual(['session', 'answer', 'sign-off', 'withdrawal']);
    expect((await run('record', '--trainee', 'AB', '--as-of', '2027-01-10')).stdout).toContain('withdrawn');
  });

  it.each([
    [['--due', '2027-03-01'], 'it was off in 1 of the answered trials, fewer than 5'],
    [['--due', '2027-01-10', '--reason', 'x'], 'is not after'],
    [['--due', '2027-02-30', '--reason', 'x'], '--due is "2027-02-30", expected a day'],
    [[], '--due is missing'],
    [['--landmark', 'KNEE', '--due', '2027-03-01'], '--landmark is "KNEE", expected one of C7'],
  ])('writes nothing for %o', async (more, sentence) => {
    const before = readFileSync(history, 'utf8');
    const { code, stderr } = await sign(...more);
    expect(code).toBe(2);
    expect(stderr).toContain(sentence);
    expect(readFileSync(history, 'utf8')).toBe(before);
  });

  it('prints as one page without a script, with what a browser would obey written out', async () => {
    await sign('--due', '2027-03-01', '--reason', '<script>alert(1)</script>\u202e');
    const page = join(folder, 'record.html');
    const { code } = await run(
      'record',
      '--trainee',
      'AB',
      '--as-of',
      '2027-03-02',
      '--format',
      'html',
      '--output',
      page,
    );
    expect(code).toBe(0);
    const html = readFileSync(page, 'utf8');
    expect(html).toContain('&lt;script>alert(1)');
    expect(html).not.toMatch(/<script|\u202e|https?:/);
    expect(html).toContain('OVERDUE by 1 day');
  });
});

describe('setsquare practice repeat', () => {
  const sample = (name: string) => join(samples, `${name}.c3d`);
  const run = (...argv: string[]) =>
    runInProcess(['practice', 'repeat', ...argv, '--history', history], { columns: 80 });

  it('refuses one recording twice, and one alone', async () => {
    const twice = await run(sample('heel-low'), sample('heel-low'), '--trainee', 'AB');
    expect([twice.code, twice.stdout]).toEqual([2, '']);
    expect(twice.stderr).toContain('heel-low.c3d and heel-low.c3d are one recording');
    expect((await run(sample('heel-low'))).stderr).toContain('repeat needs two standing trials');
  });

  it('shows two people, says that it doubts them, and keeps nothing', async () => {
    const { code, stdout, stderr } = await run(sample('adult-well-placed'), sample('heel-low'), '--trainee', 'AB');
    expect(code).toBe(0);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
    expect(stdout).toContain('is it the same subject');
    expect(stderr).toContain('not kept in the history');
    expect(existsSync(history)).toBe(false);
  });
});
