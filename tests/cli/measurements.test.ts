import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { runInProcess } from './run-in-process.ts';

const folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
afterAll(() => rmSync(folder, { recursive: true }));
const child = new URL('../../sample-trials/child-well-placed.session.json', import.meta.url).pathname;
const trial = new URL('../../sample-trials/adult-well-placed.c3d', import.meta.url).pathname;

function write(name: string, measurements: object[]): string {
  const path = join(folder, name);
  const subject = { code: 'MR-01', ageYears: 34, sex: 'male' };
  writeFileSync(path, JSON.stringify({ format: 'setsquare-session/1', subject, measurements }));
  return path;
}

const inches = write('inches.json', [
  { measure: 'stature', value: 1782, unit: 'mm' },
  { measure: 'pelvisWidth', value: 9.6, unit: 'cm' },
]);

describe('setsquare measurements', () => {
  it('has nothing to ask of a sheet that is right, and says what is not on it', async () => {
    const { code, stdout, stderr } = await runInProcess(['measurements', child]);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^No reading to take again; 2 not on the sheet\.\nSubject: MR-02, 7 years, female\n/);
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('says which reading to take again, how it is taken, and why it is doubted', async () => {
    const { code, stdout } = await runInProcess(['measurements', inches]);
    expect(code).toBe(1);
    const text = stdout.replaceAll(/\s+/g, ' ');
    expect(text).toContain('1. Take the pelvis width again.');
    expect(text).toContain('if the inch scale was read and 9.6 written down as centimetres');
    expect(text).toContain('How: With the pelvimeter between the two ASIS');
  });

  it('gives programs every finding', async () => {
    const { stdout } = await runInProcess(['measurements', inches, '--format', 'json']);
    const { format, subject, findings } = JSON.parse(stdout);
    expect([format, subject]).toEqual(['setsquare-measurements/1', { code: 'MR-01' }]);
    expect(findings[0]).toMatchObject({
      check: 'unit-slip',
      status: 'repeat',
      readings: [{ measure: 'pelvisWidth', side: null }],
    });
  });

  it('refuses a session that cannot be used', async () => {
    const { code, stdout, stderr } = await runInProcess(['measurements', trial]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('adult-well-placed.c3d');
  });
});

describe('the sheets that ship', () => {
  it.each([
    ['textbook-adult', 0, 'No reading to take again.'],
    ['six-years-old', 0, 'No reading to take again.'],
    // By itself it is plausible: only the markers show it (below).
    ['pelvis-too-narrow', 0, 'No reading to take again.'],
    ['inch-reading', 1, 'the inch scale was read and 9.4 written down as centimetres'],
    ['slanted-depth', 1, 'perhaps the slanted distance was read there'],
    ['knee-and-ankle-exchanged', 1, 'Take the right'],
    ['wrong-unit', 1, '89.6 was read in centimetres and written down as millimetres'],
  ])('%s', async (name, exitCode, says) => {
    const path = new URL(`../../sample-trials/sheets/${name}.session.json`, import.meta.url).pathname;
    const { code, stdout } = await runInProcess(['measurements', path]);
    expect(code).toBe(exitCode);
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain(says);
    // One slip, one reading to take again, or the two that stand in each other's place.
    expect(stdout.match(/^ +\d+\. Take the/gm)?.length ?? 0).toBe(exitCode);
  });
});

describe('a check with such a sheet', () => {
  it('finds what only the markers show', async () => {
    const narrow = new URL('../../sample-trials/sheets/pelvis-too-narrow.session.json', import.meta.url).pathname;
    const { code, stdout } = await runInProcess(['check', trial, '--session', narrow, '--format', 'json']);
    const { moves, measurements, sheetAgainstTrial } = JSON.parse(stdout);
    expect([code, moves.map(({ action }: { action: string }) => action)]).toEqual([1, ['measure-again']]);
    expect(measurements.map(({ check }: { check: string }) => check)).toEqual(['trial-against-sheet']);
    const doubted = sheetAgainstTrial.compared.filter(({ agrees }: { agrees: boolean }) => !agrees);
    expect(doubted.map(({ title }: { title: string }) => title)).toEqual(['Pelvis width']);
  });

  it('asks for the reading again before walking, and says so in every form', async () => {
    const { code, stdout } = await runInProcess(['check', trial, '--session', inches, '--format', 'json']);
    expect(code).toBe(1);
    const { verdict, moves, measurements } = JSON.parse(stdout);
    expect(verdict).toBe('adjust');
    expect(moves.map(({ action }: { action: string }) => action)).toEqual(['measure-again']);
    expect(measurements.filter(({ status }: { status: string }) => status === 'repeat')).toHaveLength(1);
    const text = (await runInProcess(['check', trial, '--session', inches])).stdout.replaceAll(/\s+/g, ' ');
    expect(text).toContain('1. Take the pelvis width again: with the pelvimeter');
  });
});
