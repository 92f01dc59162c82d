import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildDemoStudy } from '../../sample-trials/demo-study.ts';
import { runInProcess } from './run-in-process.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
  for (const { path, content } of buildDemoStudy(3)) writeFileSync(join(folder, path), content);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const at = (name: string) => join(folder, name);
const study = (design: string, ...options: string[]) => runInProcess(['study', at(design), ...options]);

interface Written {
  captures: { trial: string; subject: string; session: string }[];
  [field: string]: unknown;
}

/** The design changed, under another name in the same folder. */
function changed(name: string, change: (design: Written) => void): string {
  const design: Written = JSON.parse(readFileSync(at('study.json'), 'utf8'));
  change(design);
  writeFileSync(at(name), JSON.stringify(design));
  return name;
}

describe('setsquare study', () => {
  it('says how well placement repeats, what matters most first, in 80 columns', async () => {
    const { code, stdout, stderr } = await study('study.json');
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^3 assessors marked 5 subjects, 2 sessions each: 30 captures\.\n/);
    for (const part of ['Repeats worst', 'Costs most', 'Before a figure is believed', 'ICC (95 %)', 'MDC95'])
      expect(stdout).toContain(part);
    expect(Math.max(...stdout.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('gives programs every value, rounded, with the design', async () => {
    const { code, stdout } = await study('study.json', '--format', 'json');
    expect(code).toBe(0);
    const { format, captures, placements, angles } = JSON.parse(stdout);
    expect([format, captures.length]).toEqual(['setsquare-study-report/1', 30]);
    for (const { values, repeats } of [...placements, ...angles]) {
      expect(values).toHaveLength(30);
      for (const value of values) expect(value).toBe(Math.round(value * 10) / 10);
      expect(repeats.size).toEqual({ subjects: 5, assessors: 3, sessions: 2 });
    }
  });

  it('goes on without a trial that is not there, says so, and ends with 2', async () => {
    const design = changed('gap.json', ({ captures }) => {
      captures[0]!.trial = 'gone.c3d';
    });
    const { code, stdout } = await study(design);
    expect(code).toBe(2);
    expect(stdout.replaceAll(/\s+/g, ' ')).toMatch(/Left out: V1 by AK, session 1: .*there is no such file/);
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain('2 sessions each: 24 captures of 29 that could be used.');
  });

  it('refuses one recording in two rows, whatever its names', async () => {
    copyFileSync(at('V1-AK-1.c3d'), at('copy.c3d'));
    const design = changed('twice.json', ({ captures }) => {
      captures[1]!.trial = 'copy.c3d';
    });
    const { code, stdout, stderr } = await study(design);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('/captures/1/trial: copy.c3d holds the same bytes as the trial of /captures/0');
  });

  it.each([
    ['a design that is none', 'V1-AK-1.c3d', /study/],
    ['no such file', 'none.json', /none\.json/],
  ])('says in one sentence what is wrong with %s', async (_, name, says) => {
    const { code, stdout, stderr } = await study(name);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr.trim().split('\n')).toHaveLength(1);
    expect(stderr).toMatch(says);
  });

  it('writes a page that needs nothing from elsewhere, whole or not at all, the same for the same captures', async () => {
    const design = changed('hostile.json', (written) => {
      written.title = '<img src=x onerror=alert(1)> & co';
      written.captures[0]!.subject = '<b>V1</b>';
    });
    const output = at('page.html');
    await study(design, '--format', 'html', '--output', output);
    const page = readFileSync(output, 'utf8');
    expect(page).not.toMatch(/<script|https?:| src="|<img|<b>V1|@import|url\(/);
    expect(page).toContain('&lt;img');
    expect(page).toMatch(/default-src 'none'; style-src 'sha256-[A-Za-z0-9+/=]{44}'/);
    expect((await study(design, '--format', 'html')).stdout).toBe(page);
    const failed = await study('study.json', '--format', 'html', '--output', join(folder, 'no-folder', 'page.html'));
    expect(failed.code).toBe(2);
    expect(readdirSync(folder)).not.toContain('no-folder');
  });

  it('draws every capture as a dot, and limits of agreement from six pairs on', async () => {
    const { stdout } = await study('study.json', '--format', 'html');
    const figures = stdout.match(/<figure>.*?<\/figure>/gs)!;
    const dots = figures.filter((figure) => !figure.includes('limits of agreement'));
    const limits = figures.filter((figure) => figure.includes('limits of agreement'));
    expect(dots).toHaveLength(12);
    for (const figure of dots) expect(figure.match(/class="dot"/g)).toHaveLength(30);
    // 15 pairs of sessions; 5 of assessors, which are too few to draw.
    expect(limits).toHaveLength(12);
    for (const figure of limits) expect(figure.match(/class="dot"/g)).toHaveLength(15);
    expect(stdout).not.toContain('between assessors.</b>');
  });
});
