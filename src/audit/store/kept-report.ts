import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { writeOutputAtomically } from '../../node/write-output-atomically.ts';
import type { AuditReport } from '../analysis/audit-report.ts';

/** Another number when the analysis says something else of the same rows. */
const analysisFormat = 1;

/** What a report without its charts hangs on. @param digest of the rows, and of which recording lies at which path */
export function reportKey(digest: string, most: number): string {
  return createHash('sha256')
    .update(JSON.stringify([analysisFormat, digest, most]))
    .digest('hex');
}

/**
 * The report that was made of the very same rows before, without charts, which are thousands of points; else `make` makes
 * it, and it is kept for the next time. A kept one that cannot be read is made anew.
 */
export async function keptReport(path: string, key: string, make: () => Promise<AuditReport>): Promise<AuditReport> {
  const kept = await readFile(path, 'utf8')
    .then((text) => JSON.parse(text) as { key?: unknown; report?: AuditReport })
    .catch(() => null);
  if (kept?.key === key && kept.report !== undefined) return kept.report;
  const report = JSON.parse(JSON.stringify({ ...(await make()), charts: [] })) as AuditReport;
  await writeOutputAtomically(path, `${JSON.stringify({ key, report })}\n`);
  return report;
}
