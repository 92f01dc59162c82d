import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readReferenceAdult } from '../../src/node/read-reference-adult.ts';
import { symmetricAdult } from '../support/ordinary-people.ts';
import { runInProcess } from './run-in-process.ts';

const folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
afterAll(() => rmSync(folder, { recursive: true }));
const heelLow = new URL('../../sample-trials/heel-low.c3d', import.meta.url).pathname;
const setFile = new URL('../../shared/marker-sets/lower-limb-wands-22.json', import.meta.url);

describe('setsquare blind-spots', () => {
  it('says on the reference adult what no check sees and what would show it, in 80 columns', async () => {
    const { code, stdout, stderr } = await runInProcess(['blind-spots']);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toContain('  ASIS up or down on both sides\n      Would show it: the reading of');
    expect(stdout).toMatch(/\n {2}HEEL up or down +\d+ (to \d+ )?mm +\d+ mm\n/);
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('gives programs every displacement, rounded', async () => {
    const { code, stdout } = await runInProcess(['blind-spots', 'lower-limb-medial-20', '--format', 'json']);
    expect(code).toBe(0);
    const { displacements, ...heading } = JSON.parse(stdout);
    expect(heading).toEqual({
      format: 'setsquare-blind-spots/1',
      markerSet: 'lower-limb-medial-20',
      on: 'reference-adult',
      rules: expect.any(Number),
      assessed: heading.rules,
      norms: 'lower-limb-medial-20-generated',
    });
    const heel = displacements.find((one: { markers: string[] }) => one.markers[0] === 'R_HEEL');
    expect(heel).toMatchObject({ how: 'alone', toward: expect.any(String), openers: [] });
    expect(heel.fails.mm).toBeCloseTo(Math.round(heel.fails.mm * 10) / 10, 12);
  });

  it('computes it on the person of a trial, without a file name in JSON', async () => {
    const { code, stdout } = await runInProcess(['blind-spots', '--trial', heelLow, '--format', 'json']);
    expect(code).toBe(0);
    expect(stdout).not.toContain('heel-low');
    const { displacements, on } = JSON.parse(stdout);
    expect(on).toBe('trial');
    // That heel stands 11 mm too low already, so its own rule fails on nothing new there; the other one sees 8 mm.
    const up = displacements.find(
      (one: { how: string; markers: string[]; toward: string }) =>
        one.how === 'alone' && one.markers[0] === 'R_HEEL' && one.toward === 'up',
    );
    expect(up.fails.rule).toMatch(/heel/);
  });

  it('asks for a trial where the reference adult has no place for a marker', async () => {
    const set = JSON.parse(readFileSync(setFile, 'utf8'));
    set.name = 'ours';
    const knee = set.markers.find((marker: { label: string }) => marker.label === 'GT');
    set.markers.push({ ...knee, label: 'PATELLA' });
    const path = join(folder, 'ours.json');
    writeFileSync(path, JSON.stringify(set));
    const { code, stdout, stderr } = await runInProcess(['blind-spots', path]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('the reference adult has no place for R_PATELLA, L_PATELLA; give a standing trial');
  });

  it('says why a trial cannot be used', async () => {
    const path = join(folder, 'empty.c3d');
    writeFileSync(path, '');
    const { code, stderr } = await runInProcess(['blind-spots', '--trial', path]);
    expect(code).toBe(2);
    expect(stderr).toContain('empty.c3d: ');
    expect(stderr.trim().split('\n').length).toBe(1);
  });
});

it('the reference adult that ships stands as the generated one does', async () => {
  const shipped = await readReferenceAdult();
  const generated = symmetricAdult();
  expect([...shipped.keys()].sort()).toEqual([...generated.keys()].sort());
  for (const [label, position] of generated)
    position.forEach((mm, axis) => expect(shipped.get(label)![axis]).toBeCloseTo(mm, 2));
});
