import { spawn } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildDemoArchive } from '../../sample-trials/demo-archive.ts';
import { seededRandom } from '../../sample-trials/seeded-random.ts';

const root = new URL('../../', import.meta.url).pathname;
const command = join(root, 'bin/setsquare.js');
const folder = mkdtempSync(join(tmpdir(), 'setsquare-audit-'));
const archive = join(folder, 'archive');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(async () => {
  for (const { path, content } of buildDemoArchive({ visits: 150, seed: 3 })) {
    mkdirSync(dirname(join(archive, path)), { recursive: true });
    writeFileSync(join(archive, path), content);
  }
  // A way round in a circle, which ends.
  symlinkSync(archive, join(archive, 'again'));
  await run(['audit', archive, '--store', 'whole']);
});

/** The built program, since its threads run what the build made. */
function run(
  argv: readonly string[],
  killAfterMs?: number,
): Promise<{ code: number | null; stdout: string; stderr: string }> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [command, ...argv], { cwd: folder });
    let stdout = '';
    let stderr = '';
    child.stdout.on('data', (chunk) => {
      stdout += chunk;
    });
    child.stderr.on('data', (chunk) => {
      stderr += chunk;
    });
    if (killAfterMs !== undefined) setTimeout(() => child.kill('SIGKILL'), killAfterMs);
    child.on('close', (code) => resolve({ code, stdout, stderr }));
  });
}

const exported = async (store: string): Promise<string[]> => {
  const path = join(folder, `${store}.jsonl`);
  const parts = readdirSync(join(folder, store, 'parts')).map((name) => join(folder, store, 'parts', name));
  const { stderr } = await run(['audit', 'report', ...parts, '--export', path, '--format', 'json']);
  if (!existsSync(path)) throw new Error(stderr);
  return readFileSync(path, 'utf8').trim().split('\n').sort();
};

describe('setsquare audit', () => {
  it('finds the drift and the habit that were planted and accuses nobody else, past files that are no trials', async () => {
    const { code, stdout } = await run(['audit', archive, '--store', 'whole', '--format', 'json']);
    // Files that are no trials are told, and do not stop the rest.
    expect(code).toBe(2);
    const report = JSON.parse(stdout);
    expect(report.findings).toMatchObject([
      { kind: 'drift', assessor: 'BN', rule: 'shank-wand-in-line', side: 'both' },
      { kind: 'both-sides', assessor: 'CS', rule: 'thigh-wand-in-line', side: 'both' },
    ]);
    // Shank wands of BN creep 1.2 degrees a month backward, to 9.6; the latest 20 visits stand near 8.
    expect(report.findings[0].offset).toBeLessThan(-8);
    // Thigh wands of CS stand 7 degrees forward: about 12 mm at the tip.
    expect(report.findings[1].offset).toBeGreaterThan(9);
    expect(report.findings[1].offset).toBeLessThan(15);
    expect(report.problems).toEqual([{ code: 'file-unreadable', recordings: 2 }]);
    // One recording lies there twice, and the circle of links adds none.
    expect(report.scope.files - report.scope.recordings).toBe(1);
    const text = (await run(['audit', archive, '--store', 'whole'])).stdout.replaceAll(/\s+/g, ' ');
    expect(text).toContain('Habit on both sides, assessor CS: Thigh wand in line with trochanter and epicondyle');
    expect(text).toContain('The charts are for learning, not for ranking people');
    expect(text).not.toMatch(/(Habit|Drift)[^:]*, assessor AK/);
  });

  it('checks a second time only what is new', async () => {
    const { stderr } = await run(['audit', archive, '--store', 'whole']);
    expect(stderr).toMatch(/ 0 trials checked, \d+ unchanged/);
    // What is told is the same whether the report was kept, made anew, or made of the parts.
    const told = (await run(['audit', archive, '--store', 'whole'])).stdout;
    rmSync(join(folder, 'whole/share-1-of-1/report.json'));
    expect((await run(['audit', archive, '--store', 'whole'])).stdout).toBe(told);
    expect((await run(['audit', 'report', 'whole'])).stdout).toBe(told);
  });

  it('names each trial where it lies now, though the same trials lie in other places', async () => {
    const [a, b] = ['one', 'two'].map((name) => join(folder, 'places', name)) as [string, string];
    for (const each of [a, b]) mkdirSync(each, { recursive: true });
    const samples = ['heel-low', 'wand-forward'].map((name) => join(root, `sample-trials/${name}.c3d`));
    const place = (first: number) => {
      copyFileSync(samples[first]!, join(a, 'x.c3d'));
      copyFileSync(samples[1 - first]!, join(b, 'x.c3d'));
    };
    const audit = async (...more: string[]) =>
      (await run(['audit', a, b, '--store', 'places-store', '--show-names', ...more])).stdout;
    const heelAt = (told: string) => /heel marker sits.*?File: (\S+)/s.exec(told)![1]!.replaceAll(/\s/g, '');
    place(0);
    expect(heelAt(await audit())).toContain('/one');
    place(1);
    expect(heelAt(await audit('--pages', 'places-pages'))).toContain('/two');
    expect(readdirSync(join(folder, 'places-pages'))).toHaveLength(2);
  });

  it('killed twenty times at moments by chance loses nothing and doubles nothing', async () => {
    const random = seededRandom(11);
    let wasCutOff = 0;
    // A run that was done before its moment came does not count, however fast the machine is.
    for (let tried = 0; tried < 100 && wasCutOff < 20; tried++) {
      const { code } = await run(['audit', archive, '--store', 'killed', '--threads', '1'], random.between(60, 500));
      if (code === null) wasCutOff += 1;
    }
    expect(wasCutOff).toBe(20);
    const { stdout } = await run(['audit', archive, '--store', 'killed', '--format', 'json']);
    expect(stdout).toBe((await run(['audit', archive, '--store', 'whole', '--format', 'json'])).stdout);
    expect(await exported('killed')).toEqual(await exported('whole'));
    // Nothing half-written is left.
    await run(['audit', archive, '--store', 'killed']);
    expect(readdirSync(join(folder, 'killed'), { recursive: true }).sort()).toEqual(
      readdirSync(join(folder, 'whole'), { recursive: true }).sort(),
    );
    const keys = readFileSync(join(folder, 'killed/share-1-of-1/results.jsonl'), 'utf8')
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line).key);
    expect(new Set(keys).size).toBe(keys.length);
  }, 60_000);

  it('stopped by Ctrl-C ends with 130, keeps what was checked and gives its lock back', async () => {
    const child = spawn(process.execPath, [command, 'audit', archive, '--store', 'stopped', '--threads', '1'], {
      cwd: folder,
    });
    const journal = join(folder, 'stopped/share-1-of-1/results.jsonl');
    const lines = () => (existsSync(journal) ? readFileSync(journal, 'utf8').split('\n').length - 1 : 0);
    const code = await new Promise((resolve) => {
      let isPressed = false;
      const waiting = setInterval(() => {
        if (isPressed || lines() === 0) return;
        isPressed = child.kill('SIGINT');
      }, 5);
      child.on('close', (ended) => {
        clearInterval(waiting);
        resolve(ended);
      });
    });
    expect(code).toBe(130);
    expect(lines()).toBeGreaterThan(0);
    expect(existsSync(join(folder, 'stopped/share-1-of-1/lock'))).toBe(false);
    expect(readdirSync(join(folder, 'stopped/parts'))).toEqual([]);
    await run(['audit', archive, '--store', 'stopped']);
    expect(await exported('stopped')).toEqual(await exported('whole'));
  });

  it('names no file and no whole hash unless names are to be shown', async () => {
    const rows = join(folder, 'plain.jsonl');
    const plain = await run(['audit', archive, '--store', 'whole', '--format', 'json', '--export', rows]);
    for (const text of [plain.stdout, readFileSync(rows, 'utf8'), ...(await exported('whole'))]) {
      expect(text).not.toContain('.c3d');
      expect(text).not.toMatch(/"sha256":"[0-9a-f]{64}"/);
    }
    const named = await run(['audit', archive, '--store', 'whole', '--format', 'json', '--show-names']);
    expect(named.stdout).toContain('.c3d');
  });

  it('checks again what changed, what came with another session, and what --rehash distrusts', async () => {
    const own = join(folder, 'own');
    mkdirSync(own);
    const sample = join(root, 'sample-trials/wand-forward.c3d');
    copyFileSync(sample, join(own, 'a.c3d'));
    const age = new Date(Date.now() - 60_000);
    utimesSync(join(own, 'a.c3d'), age, age);
    const audit = async (...more: string[]) =>
      /(\d+ trials?) checked, (\d+) unchanged/
        .exec((await run(['audit', own, '--store', 'own-store', ...more])).stderr)!
        .slice(1);
    expect(await audit()).toEqual(['1 trial', '0']);
    expect(await audit()).toEqual(['0 trials', '1']);
    expect(await audit('--rehash')).toEqual(['0 trials', '1']);
    // The same size and time, other bytes: only a hash sees it.
    const bytes = readFileSync(sample);
    bytes.writeFloatLE(1, bytes.length - 64);
    writeFileSync(join(own, 'a.c3d'), bytes);
    utimesSync(join(own, 'a.c3d'), age, age);
    expect(await audit()).toEqual(['0 trials', '1']);
    expect(await audit('--rehash')).toEqual(['1 trial', '0']);
    writeFileSync(join(own, 'a.session.json'), '{ "format": "setsquare-session/1", "subject": { "code": "MR-03" } }');
    expect(await audit()).toEqual(['1 trial', '0']);
    // A whole second run with another marker set; then the first is still known.
    expect(await audit('--marker-set', 'fit')).toEqual(['1 trial', '0']);
    expect(await audit()).toEqual(['0 trials', '1']);
  });

  it('takes a list from standard input, and a session that is refused is told without its text', async () => {
    const own = join(folder, 'listed');
    mkdirSync(own);
    copyFileSync(join(root, 'sample-trials/heel-low.c3d'), join(own, 'b.c3d'));
    writeFileSync(
      join(own, 'b.session.json'),
      '{ "format": "setsquare-session/1", "subject": { "code": "Jane Doe" } }',
    );
    const child = spawn(
      process.execPath,
      [command, 'audit', '--files-from', '-', '--store', 'listed-store', '--export', 'listed.jsonl'],
      {
        cwd: folder,
      },
    );
    let stdout = '';
    child.stdout.on('data', (chunk) => {
      stdout += chunk;
    });
    child.stdin.end(`${join(own, 'b.c3d')}\n${join(own, 'none.c3d')}\n`);
    expect(await new Promise((resolve) => child.on('close', resolve))).toBe(2);
    expect(stdout).toContain('1 session file could not be used');
    expect(stdout).toContain('1 file could not be read as a trial');
    const rows = readFileSync(join(folder, 'listed.jsonl'), 'utf8');
    expect(rows).toContain('it is refused at /subject/code');
    expect(rows).not.toContain('Jane');
  });

  it('in shares side by side is what one audit is, to the last figure of the report', async () => {
    await Promise.all([1, 2].map((share) => run(['audit', archive, '--store', 'shares', '--share', `${share}/2`])));
    expect(await exported('shares')).toEqual(await exported('whole'));
    const whole = await run(['audit', archive, '--store', 'whole', '--format', 'json']);
    for (const parts of [['shares'], ['shares/parts/part-2-of-2.parquet', 'shares/parts/part-1-of-2.parquet']]) {
      const reported = await run(['audit', 'report', ...parts, '--format', 'json']);
      expect(reported.stdout).toBe(whole.stdout);
      expect(reported.code).toBe(whole.code);
    }
  });

  describe('of an archive that was split in one way and then in another', () => {
    const few = join(folder, 'few');
    const audit = (...more: string[]) => run(['audit', few, '--store', 'split', ...more]);
    const report = (...more: string[]) => run(['audit', 'report', ...more, '--format', 'json']);
    const partsOf = (store: string) => readdirSync(join(folder, store, 'parts')).sort();
    beforeAll(async () => {
      mkdirSync(few);
      for (const name of ['heel-low', 'wand-forward', 'sacral-high'])
        copyFileSync(join(root, `sample-trials/${name}.c3d`), join(few, `${name}.c3d`));
      copyFileSync(join(few, 'heel-low.c3d'), join(few, 'copy.c3d'));
      writeFileSync(join(few, 'empty.c3d'), '');
      await audit();
    });

    it('counts every file once', async () => {
      const before = (await report('split')).stdout;
      expect(JSON.parse(before).scope).toMatchObject({ files: 5, recordings: 4 });
      const said: string[] = [];
      for (const share of [1, 2, 3, 4, 5, 6]) said.push((await audit('--share', `${share}/6`)).stderr);
      expect(said[0]).toContain('part-1-of-1.parquet was taken away: it tells of the same files');
      expect(partsOf('split')).toEqual([1, 2, 3, 4, 5, 6].map((share) => `part-${share}-of-6.parquet`));
      expect((await report('split')).stdout).toBe(before);
      // And back: nothing is checked again.
      expect((await audit()).stderr).toContain('0 trials checked, 5 unchanged');
      expect(partsOf('split')).toEqual(['part-1-of-1.parquet']);
      expect((await report('split')).stdout).toBe(before);
    });

    it('is refused where a store holds parts of both, and told where parts of both are named', async () => {
      await run(['audit', few, '--store', 'mixed', '--share', '1/2']);
      copyFileSync(join(folder, 'split/parts/part-1-of-1.parquet'), join(folder, 'mixed/parts/before.parquet'));
      const refused = await report('mixed');
      expect(refused).toMatchObject({ code: 2, stdout: '' });
      expect(refused.stderr).toContain('mixed holds parts of different splits (1 of 1, 1 of 2)');
      const named = await report('mixed/parts/before.parquet', 'mixed/parts/part-1-of-2.parquet');
      expect(named.stderr).toMatch(/\d recordings? lies? in parts that may tell of the same files/);
    });

    it('says which shares are missing, and that they are not in the report', async () => {
      await run(['audit', few, '--store', 'partly', '--share', '2/3']);
      const { code, stdout } = await report('partly');
      expect(code).toBe(2);
      expect(JSON.parse(stdout).scope.missingParts).toEqual(['1 of 3', '3 of 3']);
      const text = (await run(['audit', 'report', 'partly'])).stdout.replaceAll(/\s+/g, ' ');
      expect(text).toContain('parts 1 of 3, 3 of 3 are missing, and their share of the files is not in this report');
    });

    it('counts a part once that is named twice, in whatever way', async () => {
      symlinkSync(join(folder, 'split'), join(folder, 'linked'));
      const once = (await report('split')).stdout;
      expect((await report('split', 'linked', './split/parts/part-1-of-1.parquet')).stdout).toBe(once);
    });
  });

  it('draws the same sample for the same seed, and never names what was found', async () => {
    const parts = readdirSync(join(folder, 'whole/parts')).map((name) => join(folder, 'whole/parts', name));
    const [once, again, other] = await Promise.all(
      ['7', '7', '8'].map((seed) => run(['audit', 'sample', ...parts, '--n', '6', '--seed', seed])),
    );
    expect(once!.code).toBe(0);
    expect(again!.stdout).toBe(once!.stdout);
    expect(other!.stdout).not.toBe(once!.stdout);
    expect(once!.stdout.split('Reading list')[1]!.split('As a table')[0]).not.toMatch(/wand|adjust|ready|[A-Z]{2}, MR/);
  });

  it('takes the verdicts of two readers back: agreement, each disagreement, and what is overdue', async () => {
    const list = join(folder, 'list.csv');
    await run([
      'audit',
      'sample',
      join(folder, 'whole'),
      '--n',
      '12',
      '--seed',
      '7',
      '--format',
      'csv',
      '--output',
      list,
    ]);
    const [head, ...rows] = readFileSync(list, 'utf8').trim().split(/\r?\n/);
    expect(head).toBe(
      'number,trial,subject,visit_on,path,reader,verdict,reasons,non_conformance,corrective_action,due,closed',
    );
    expect(rows).toHaveLength(12);
    const fill = (reader: string, verdictOf: (index: number) => string): string => {
      const path = join(folder, `${reader}.csv`);
      const filled = rows.map((row, index) => {
        const cells = row.split(',');
        cells[5] = reader;
        cells[6] = verdictOf(index);
        if (index === 0) cells.splice(8, 3, 'no session file', 'record it', '2026-01-10');
        return cells.join(',');
      });
      writeFileSync(path, [head, ...filled].join('\n'));
      return path;
    };
    // They agree in nine of twelve; where the first says adjust three times, the second never does.
    const first = fill('QR', (index) => (index < 3 ? 'adjust' : 'ready'));
    const second = fill('ST', () => 'ready');
    const { code, stdout } = await run([
      ...['audit', 'sample', join(folder, 'whole'), '--verdicts', first, '--verdicts', second],
      ...['--as-of', '2026-03-02'],
    ]);
    expect(code).toBe(0);
    const text = stdout.replaceAll(/\s+/g, ' ');
    expect(text).toContain('QR read 12, ST read 12.');
    expect(text).toMatch(/QR and ST: 9 of 12 alike \(75 %\), kappa 0\.00/);
    expect(text).toMatch(/QR, overdue: no session file Action: record it; due 2026-01-10/);
    expect(text.match(/QR adjust, ST ready/g)).toHaveLength(3);
  });

  it('writes a page for each trial to look at again, and links it', async () => {
    const html = join(folder, 'audit.html');
    const argv = [
      'audit',
      archive,
      '--store',
      'whole',
      '--format',
      'html',
      '--output',
      html,
      '--pages',
      'pages',
      '--most',
      '4',
    ];
    expect((await run(argv)).code).toBe(2);
    const pages = readdirSync(join(folder, 'pages')).sort();
    expect(pages).toHaveLength(4);
    const text = readFileSync(html, 'utf8');
    for (const page of pages) {
      expect(page).toMatch(/^[0-9a-f]{8}\.html$/);
      expect(text).toContain(`href="pages/${page}"`);
      const trial = readFileSync(join(folder, 'pages', page), 'utf8');
      expect(trial).toContain(`trial ${page.slice(0, 8)}`);
      expect(trial).not.toMatch(/<script|\.c3d/);
    }
  });

  it('exports no formula that a spreadsheet would run', async () => {
    const path = join(folder, 'rows.csv');
    await run(['audit', archive, '--store', 'whole', '--export', path]);
    for (const line of readFileSync(path, 'utf8').split('\n'))
      for (const cell of line.split(',')) expect(cell).not.toMatch(/^"?[=@]/);
  });
});
