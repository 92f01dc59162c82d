import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readC3d } from '../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../src/core/c3d/read-points.ts';
import { writeC3d } from '../../src/core/c3d/write-c3d.ts';
import { runInProcess } from './run-in-process.ts';

const folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
afterAll(() => rmSync(folder, { recursive: true }));
const standing = new URL('../../sample-trials/another-lab/standing.c3d', import.meta.url).pathname;
const real = new URL('../../../shared/standing-trials/', import.meta.url);

describe('setsquare marker-set', () => {
  it('drafts a set from a trial, checks it, and checks the trial by it', async () => {
    const path = join(folder, 'our-lab.json');
    const drafted = await runInProcess(['marker-set', 'draft', standing, '--output', path]);
    expect([drafted.code, drafted.stderr]).toEqual([0, '']);
    expect(drafted.stdout).toContain('26 of 26 trajectories taken for a marker, after lower-limb-wands-22.');
    expect(drafted.stdout).toContain('  right greater trochanter');
    expect(Math.max(...drafted.stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
    expect(await runInProcess(['marker-set', 'check', path])).toMatchObject({
      code: 0,
      stdout: expect.stringMatching(
        /^our-lab, version 0\.1\.0: usable; 26 markers, 51 rules \(hash [0-9a-f]{8}\)\.\n$/,
      ),
    });
    const report = await runInProcess(['check', standing, '--marker-set', path]);
    expect(report.code).toBe(0);
    expect(report.stdout).toMatch(/^Nothing found\. 49 of 51 checks could be made\./);
  });

  it('prints the draft for programs, and writes nothing without --output', async () => {
    const { code, stdout } = await runInProcess([
      'marker-set',
      'draft',
      standing,
      '--name',
      'ours',
      '--format',
      'json',
    ]);
    expect(code).toBe(0);
    const { format, trajectories, markerSet } = JSON.parse(stdout);
    expect([format, trajectories.length, markerSet.name]).toEqual(['setsquare-marker-set-draft/1', 26, 'ours']);
    expect(trajectories[0]).toMatchObject({ label: 'pin 01', point: 1, marker: 'C7' });
  });

  it('says where a marker set is wrong', async () => {
    const path = join(folder, 'wrong.json');
    const { markerSet } = JSON.parse(
      (await runInProcess(['marker-set', 'draft', standing, '--format', 'json'])).stdout,
    );
    markerSet.stillness.quietMm = 900;
    writeFileSync(path, JSON.stringify(markerSet));
    const { code, stdout, stderr } = await runInProcess(['marker-set', 'check', path]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/wrong\.json: .*quietMm/);
  });

  it('shows the markers of a set as a list and as a picture', async () => {
    const list = await runInProcess(['marker-set', 'show', 'lower-limb-medial-20']);
    expect(list.code).toBe(0);
    expect(list.stdout).toMatch(/lateral epicondyle of the knee, right +R_LE +palpation +required\n/);
    const picture = await runInProcess(['marker-set', 'show', 'lower-limb-wands-22', '--format', 'svg']);
    // 26 from the front, and from the right those of the right side and the middle.
    expect(picture.stdout.match(/<circle /g)!.length).toBe(26 + 14);
  });

  it.each([
    [['draft'], 'draft needs a standing trial'],
    [['check'], 'check needs a marker set'],
    [['draft', standing, '--name', 'Our Lab'], '--name is "Our Lab", expected small letters'],
    [['draft', standing, '--output', standing], 'would overwrite the trial'],
    [['draft', standing, '--format', 'svg'], '--format svg is for "show"'],
    [['paint'], 'paint'],
  ])('refuses %j with one sentence', async (argv, sentence) => {
    const { code, stdout, stderr } = await runInProcess(['marker-set', ...argv]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain(sentence);
    expect(existsSync(standing)).toBe(true);
  });

  it.each([
    ['nothing', ''],
    ['text', 'notes'],
    ['zeros', '\0'.repeat(2000)],
  ])('says of a file of %s that it is no trial, and blames nobody else', async (_, content) => {
    const path = join(folder, 'no-trial.c3d');
    writeFileSync(path, content);
    const { code, stdout, stderr } = await runInProcess(['marker-set', 'draft', path]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^setsquare: no-trial\.c3d: Not readable as C3D [^\n]*\.\n$/);
    expect(stderr).not.toMatch(/fault of the program|\.;/);
  });

  it('says of a session file that it is one', async () => {
    const path = join(folder, 'session.json');
    writeFileSync(path, '{"format":"setsquare-session/1","subject":{"code":"MR-01"}}');
    const { code, stderr } = await runInProcess(['marker-set', 'check', path]);
    expect(code).toBe(2);
    expect(stderr).toContain(
      'at /format: found "setsquare-session/1", which is a file of another kind, expected a marker set; choose the other file.',
    );
  });

  it('says of a folder that is not there that it is not there', async () => {
    const { code, stderr } = await runInProcess([
      'marker-set',
      'draft',
      standing,
      '--output',
      join(folder, 'no', 'x.json'),
    ]);
    expect(code).toBe(2);
    expect(stderr).toContain(
      'Cannot write --output x.json: its folder is not there; make the folder, or choose another.',
    );
  });

  it('says that a trial holds nobody who stands', async () => {
    const path = join(folder, 'two.c3d');
    writeFileSync(
      path,
      writeC3d({
        labels: ['a', 'b'],
        pointCount: 2,
        frameCount: 1,
        rateHz: 100,
        units: 'mm',
        values: new Float32Array(8),
      }),
    );
    const { code, stderr } = await runInProcess(['marker-set', 'draft', path]);
    expect(code).toBe(2);
    expect(stderr).toContain('two.c3d: 2 trajectories do not show how somebody stands');
  });
});

/** ../shared/standing-trials, from openly licensed repositories: their labels replaced by numbers. */
describe.skipIf(!existsSync(real))('from labels that nobody knows to a first report', () => {
  it.each(['rs01.c3d', 'rs05.c3d', 'rs09.c3d'])('%s', async (name) => {
    const file = readC3d(new Uint8Array(readFileSync(new URL(name, real))));
    const labels = file.labels.slice(0, file.pointCount).map((_, index) => `t-${index + 1}`);
    const trial = join(folder, name);
    const { pointCount, frameCount, rateHz, units, firstFrame } = file;
    const { values } = readPoints(file);
    writeFileSync(
      trial,
      writeC3d({ labels, pointCount, frameCount, rateHz, units, firstFrame, values: Float32Array.from(values) }),
    );
    const set = join(folder, `${name}.json`);
    expect((await runInProcess(['marker-set', 'draft', trial, '--output', set])).code).toBe(0);
    const { code, stdout } = await runInProcess(['check', trial, '--marker-set', set, '--format', 'json']);
    const { verdict, coverage, markers } = JSON.parse(stdout);
    expect([code, verdict]).toEqual([0, 'ready']);
    expect(coverage.assessed).toBeGreaterThan(20);
    const { markers: drafted } = JSON.parse(readFileSync(set, 'utf8'));
    const aliases: [string, string][] = drafted.flatMap(
      ({ label, aliases }: { label: string; aliases?: string[] | { right: string[]; left: string[] } }) => {
        if (aliases === undefined) return [];
        if (Array.isArray(aliases)) return aliases.map((alias) => [label, alias]);
        return (['right', 'left'] as const).flatMap((side) =>
          aliases[side].map((alias) => [`${side === 'right' ? 'R' : 'L'}_${label}`, alias]),
        );
      },
    );
    expect(aliases.length).toBeGreaterThanOrEqual(16);
    for (const [marker, alias] of aliases) expect(file.labels[Number(alias.slice(2)) - 1], alias).toBe(marker);
    expect(Object.keys(markers).length).toBe(aliases.length);
  });
});
