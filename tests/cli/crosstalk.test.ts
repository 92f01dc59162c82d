import { describe, expect, it } from 'vitest';
import { runInProcess } from './run-in-process.ts';

const sample = (name: string): string => new URL(`../../sample-trials/${name}`, import.meta.url).pathname;
const wandForward = ['crosstalk', sample('knee-bends/wand-forward.c3d'), '--static', sample('wand-forward.c3d')];
const wellPlaced = [
  'crosstalk',
  sample('knee-bends/adult-well-placed.c3d'),
  '--static',
  sample('adult-well-placed.c3d'),
];

describe('setsquare crosstalk', () => {
  it('finds the planted wand in the knee bend as in the static trial, in 80 columns, with a plot', async () => {
    const { code, stdout, stderr } = await runInProcess(wandForward);
    expect([code, stderr]).toEqual([1, '']);
    expect(stdout).toMatch(/^A knee axis needs a look before the markers come off\./);
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain(
      'Then turn the right thigh wand by 6 degrees backward, toward the hamstrings: about 14 mm at its tip.',
    );
    expect(stdout).toContain('both\n  say the same');
    const lines = stdout.split('\n');
    expect(Math.max(...lines.map((line) => line.length))).toBe(80);
    expect(lines.filter((line) => /^ {6}\+-+$/.test(line)).map((line) => line.length)).toEqual([80, 80]);
    expect(lines.filter((line) => /^ *(-?\d+)? \|.*#/.test(line)).length).toBeGreaterThan(2);
  });

  it('stays within narrower and wider terminals', async () => {
    for (const columns of [60, 120]) {
      const { stdout } = await runInProcess(wandForward, { columns });
      expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(Math.min(columns, 100));
    }
  });

  it('finds nothing on a well-placed person', async () => {
    const { code, stdout } = await runInProcess(wellPlaced);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^Nothing to adjust at the knee axes, as far as this movement can tell\./);
  });

  it('gives programs the figures and a series of at most 200 frames', async () => {
    const { code, stdout } = await runInProcess([...wandForward, '--format', 'json']);
    expect(code).toBe(1);
    const { knees, ...head } = JSON.parse(stdout);
    expect(head).toMatchObject({
      format: 'setsquare-crosstalk/1',
      verdict: 'adjust',
      markerSet: { name: 'lower-limb-wands-22' },
      subject: { code: null },
      problems: [],
    });
    expect(knees.map((knee: { side: string; agreement: string }) => [knee.side, knee.agreement])).toEqual([
      ['right', 'agrees'],
      ['left', 'clear'],
    ]);
    expect(knees[0]).toMatchObject({ usable: true, staticMarkers: ['R_TW'] });
    expect(knees[0].series.length).toBe(200);
    expect(knees[0].series[0].frame).toBe(1);
    expect(Object.keys(knees[0].series[0])).toEqual(['frame', 'flexionDeg', 'varusDeg']);
    expect(stdout).not.toMatch(/\d\.\d{5}/);
  });

  it('says why a standing trial is no movement', async () => {
    const { code, stdout } = await runInProcess([
      'crosstalk',
      sample('wand-forward.c3d'),
      '--static',
      sample('wand-forward.c3d'),
    ]);
    expect(code).toBe(2);
    expect(stdout).toMatch(/^The knee axes could not be judged/);
    expect(stdout).toContain('Not judged. The right knee bends by');
  });

  it('asks for the static trial and refuses what is not there, in one sentence', async () => {
    const without = await runInProcess(['crosstalk', sample('knee-bends/wand-forward.c3d')]);
    expect([without.code, without.stdout]).toEqual([2, '']);
    expect(without.stderr).toMatch(/--static <FILE>.* not specified; setsquare --help shows how\.\n$/);
    const absent = await runInProcess(['crosstalk', 'nowhere.c3d', '--static', sample('wand-forward.c3d')]);
    expect([absent.code, absent.stdout]).toEqual([2, '']);
    expect(absent.stderr).toMatch(/^setsquare: nowhere\.c3d.*\n$/);
  });
});
