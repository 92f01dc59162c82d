import { spawn } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildDemoArchive } from '../../sample-trials/demo-archive.ts';
import { columnTypes } from '../../src/audit/parts/trial-columns.ts';

const root = new URL('../../', import.meta.url).pathname;
const page = readFileSync(join(root, 'docs/audit-store.md'), 'utf8');
const [job, finish] = [...page.matchAll(/```sh\n([\s\S]*?)```/g)].map(([, script]) => script!);
const query = /```sql\n([\s\S]*?)```/.exec(page)![1]!;

const folder = mkdtempSync(join(tmpdir(), 'setsquare-docs-'));
const env = {
  ...process.env,
  ARCHIVE: join(folder, 'archive'),
  STORE: join(folder, 'store'),
  PATH: `${folder}:${process.env.PATH}`,
};
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(() => {
  for (const { path, content } of buildDemoArchive({ visits: 45, seed: 4 })) {
    mkdirSync(dirname(join(env.ARCHIVE, path)), { recursive: true });
    writeFileSync(join(env.ARCHIVE, path), content);
  }
  writeFileSync(join(folder, 'setsquare'), `#!/bin/sh\nexec "${process.execPath}" "${root}bin/setsquare.js" "$@"\n`);
  chmodSync(join(folder, 'setsquare'), 0o755);
});

function shell(script: string, more: Record<string, string> = {}): Promise<string> {
  return new Promise((resolve) => {
    const child = spawn('sh', ['-c', script], { cwd: folder, env: { ...env, ...more } });
    let printed = '';
    child.stderr.on('data', (chunk) => {
      printed += chunk;
    });
    child.on('close', () => resolve(printed));
  });
}

describe('docs/audit-store.md', () => {
  it('explains every column and every field within', () => {
    const explained = new Set([...page.matchAll(/^\| `([a-z0-9_]+)` +\|/gm)].map(([, column]) => column));
    expect([...explained].filter((column) => column! in columnTypes)).toEqual(Object.keys(columnTypes));
    for (const column of ['checks', 'steps', 'problems']) {
      const row = page.split('\n').find((line) => line.startsWith(`| \`${column}\``))!;
      const fields = [...columnTypes[column]!.matchAll(/"?([a-z_]+)"? (?:VARCHAR|DOUBLE)/g)].map(([, field]) => field);
      expect([...row.matchAll(/`([a-z_]+)`/g)].map(([, field]) => field).slice(1)).toEqual(fields);
    }
  });

  it('has an array of jobs that, side by side, gives what one audit gives', async () => {
    const of = Number(/--array=1-(\d+)/.exec(job!)![1]);
    const jobs = Array.from({ length: of }, (_, index) => shell(job!, { SLURM_ARRAY_TASK_ID: String(index + 1) }));
    await Promise.all(jobs);
    expect(readdirSync(join(env.STORE, 'parts'))).toHaveLength(of);
    await shell(finish!);
    await shell('setsquare audit "$ARCHIVE" --store "$STORE-one" --format json --output one.json');
    expect(readFileSync(join(env.STORE, 'audit.json'), 'utf8')).toBe(readFileSync(join(folder, 'one.json'), 'utf8'));
  }, 60_000);

  it('has a query over all parts that counts each recording once', async () => {
    const instance = await DuckDBInstance.create(':memory:');
    const connection = await instance.connect();
    const reader = await connection.runAndReadAll(query.replace('parts/*', join(env.STORE, 'parts/*')));
    const rows = reader.getRowObjects();
    connection.closeSync();
    const { offsets } = JSON.parse(readFileSync(join(folder, 'one.json'), 'utf8'));
    const assessors = new Set(rows.map(({ assessor }) => assessor));
    for (const assessor of ['AK', 'BN', 'CS']) expect(assessors).toContain(assessor);
    const heel = rows.find(({ assessor, rule }) => assessor === 'CS' && rule === 'thigh-wand-in-line.right')!;
    const told = offsets.find(
      (one: { by: string; group: string; rule: string; side: string }) =>
        one.by === 'assessor' && one.group === 'CS' && one.rule === 'thigh-wand-in-line' && one.side === 'right',
    );
    // Captures of one visit count once in the audit and each in the query.
    expect(Number(heel.recordings)).toBeGreaterThanOrEqual(told.visits);
    expect(Math.abs(Number(heel.mean_mm) - told.mean)).toBeLessThan(1);
  });
});
