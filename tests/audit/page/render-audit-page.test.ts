import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/audit/analysis/analyse.ts';
import { renderAuditPage } from '../../../src/audit/page/render-audit-page.tsx';
import type { TrialRow } from '../../../src/audit/parts/trial-row.ts';
import { formatAuditText } from '../../../src/audit/report/format-audit-text.ts';
import { roundAudit } from '../../../src/audit/report/round-audit.ts';
import { hashOf, madeRow, wandCheck } from '../make-row.ts';

const analysed = (rows: readonly TrialRow[]) =>
  analyse(
    {
      header: { sets: [], unread: { folders: 0, files: 0 }, missingParts: [] },
      async *identities() {},
      async *rows() {
        yield* rows;
      },
    },
    { mostReexaminations: 50 },
  );

const visits = (count: number, given: (index: number) => Partial<TrialRow>) =>
  Array.from({ length: count }, (_, index) =>
    madeRow({
      sha256: hashOf(index + 1),
      subject: `P${index}`,
      visit_on: `2025-${String(1 + Math.floor(index / 28)).padStart(2, '0')}-${String(1 + (index % 28)).padStart(2, '0')}`,
      checks: [wandCheck('right', 12 + (index % 3)), wandCheck('left', 11 + (index % 4))],
      verdict: 'adjust',
      ...given(index),
    }),
  );

describe('the page of an audit', () => {
  it('needs nothing from elsewhere: no script, no address, one style that its policy allows', async () => {
    const page = renderAuditPage(await analysed(visits(60, () => ({}))));
    expect(page).not.toMatch(/<script|https?:|src=|@import|url\(/);
    expect(page).toMatch(/default-src 'none'; style-src 'sha256-[A-Za-z0-9+/=]{44}'/);
    expect(page.match(/<style>/g)).toHaveLength(1);
    expect(page).not.toMatch(/ style="/);
  });

  it('tells what was found, shows the chart, and says that it is for learning', async () => {
    const page = renderAuditPage(await analysed(visits(60, () => ({}))));
    expect(page).toContain('Habit on both sides, assessor AK');
    expect(page).toContain('for learning, not for ranking people');
    expect(page.match(/class="audit-chart"/g)!.length).toBeGreaterThan(0);
    expect(page).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('escapes codes that a browser or a reader would obey', async () => {
    const page = renderAuditPage(
      await analysed(visits(12, () => ({ assessor: '<img/src=x>', site: '\u202eRM', subject: '"onload="x' }))),
    );
    expect(page).not.toContain('<img');
    expect(page).not.toContain('\u202e');
    expect(page).not.toContain('"onload=');
  });

  it('stands without a single recording, without days, and with thousands of visits', async () => {
    for (const rows of [
      [],
      visits(30, () => ({ visit_on: null, subject: null })),
      visits(3000, (index) => ({ visit_on: `2025-01-${String(1 + (index % 28)).padStart(2, '0')}` })),
    ]) {
      const report = await analysed(rows);
      expect(renderAuditPage(report)).not.toMatch(/NaN|undefined|Infinity/);
      expect(formatAuditText(roundAudit(report), { columns: 80, color: false })).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  it('as text keeps to the width it is given', async () => {
    const text = formatAuditText(roundAudit(await analysed(visits(60, () => ({})))), { columns: 80, color: false });
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('is the same for the same report', async () => {
    const report = await analysed(visits(25, () => ({})));
    expect(renderAuditPage(report)).toBe(renderAuditPage(report));
  });
});
