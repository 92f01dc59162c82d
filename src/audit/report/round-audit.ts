import { roundTo } from '../../core/report/rounding.ts';
import type { AuditReport } from '../analysis/audit-report.ts';

/** Means of many are known better than one marker is; shares need one digit more. */
const decimals = 2;
const shareDecimals = 3;

/** The report with every figure rounded, once. */
export function roundAudit(report: AuditReport): AuditReport {
  return rounded(report, '') as AuditReport;
}

function rounded(value: unknown, key: string): unknown {
  if (typeof value === 'number') return roundTo(key === 'failShare' ? shareDecimals : decimals, value);
  if (Array.isArray(value)) return value.map((item) => rounded(item, key));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, item]) => [name, rounded(item, name)]));
}
