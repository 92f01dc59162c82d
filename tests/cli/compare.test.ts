import { describe, expect, it } from 'vitest';
import { runInProcess } from './run-in-process.ts';

const sample = (name: string) => new URL(`../../sample-trials/${name}.c3d`, import.meta.url).pathname;

describe('setsquare compare', () => {
  it('finds no difference between a trial and itself, in 80 columns', async () => {
    const { code, stdout, stderr } = await runInProcess(['compare', sample('wand-forward'), sample('wand-forward')]);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toContain('No marker sits 2 mm or more from where it sat.');
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('says what became of a step that was asked for', async () => {
    const { stdout } = await runInProcess(['compare', sample('heel-low'), sample('heel-low')]);
    expect(stdout).toMatch(/What was asked for\n {2}1\. .*not moved; 11 mm up was asked/);
  });

  it('gives programs each marker and the posture, rounded', async () => {
    const { code, stdout } = await runInProcess([
      'compare',
      sample('adult-well-placed'),
      sample('child-well-placed'),
      '--format',
      'json',
    ]);
    expect(code).toBe(0);
    const { format, captures } = JSON.parse(stdout);
    expect(format).toBe('setsquare-comparison/1');
    expect(captures).toHaveLength(1);
    const [{ placement, posture, steps }] = captures;
    expect(placement).toHaveLength(22);
    for (const { mm, distanceMm } of placement)
      for (const value of [...Object.values<number>(mm), distanceMm]) expect(value).toBe(Math.round(value * 10) / 10);
    expect(posture.length).toBeGreaterThan(3);
    // Two people: no step of one is told of the other.
    expect(steps).toBeNull();
  });

  it.each([
    [['compare', sample('heel-low')], 'compare needs two standing trials'],
    [['compare', sample('heel-low'), '/nowhere/else.c3d'], 'else.c3d'],
  ])('refuses with one sentence', async (argv, sentence) => {
    const { code, stdout, stderr } = await runInProcess(argv);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain(sentence);
  });
});
