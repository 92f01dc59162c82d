import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { AuditReport } from '../../../src/audit/analysis/audit-report.ts';
import { keptReport, reportKey } from '../../../src/audit/store/kept-report.ts';

let folder: string;
let made: number;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
  made = 0;
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const path = () => join(folder, 'report.json');
const make = async () => {
  made += 1;
  return { problems: [{ code: 'x', recordings: made }], charts: [{}] } as unknown as AuditReport;
};

it('is made once for the same rows, and without its charts', async () => {
  const once = await keptReport(path(), 'k', make);
  expect(await keptReport(path(), 'k', make)).toEqual(once);
  expect([made, once.charts]).toEqual([1, []]);
});

it('is made anew for other rows, and where the kept one is damaged', async () => {
  await keptReport(path(), 'k', make);
  await keptReport(path(), 'l', make);
  writeFileSync(path(), readFileSync(path(), 'utf8').slice(0, 20));
  await keptReport(path(), 'l', make);
  expect(made).toBe(3);
});

it('hangs on the rows and on how much is listed', () => {
  const keys = [reportKey('a', 50), reportKey('b', 50), reportKey('a', 51)];
  expect(new Set(keys).size).toBe(keys.length);
  expect(reportKey('a', 50)).toBe(keys[0]);
});
