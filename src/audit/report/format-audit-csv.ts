import type { AuditReport } from '../analysis/audit-report.ts';
import { csvLine } from '../parts/csv.ts';

/** Mean offset and spread of each construction rule for each assessor, site and month: a line each. */
export function formatAuditCsv({ offsets }: AuditReport): string {
  const lines = offsets.map((one) =>
    csvLine([
      one.by,
      one.group,
      one.rule,
      one.side,
      one.unit,
      one.visits,
      one.isFew,
      one.mean,
      one.meanInterval?.[0] ?? null,
      one.meanInterval?.[1] ?? null,
      one.sd,
      one.sdInterval?.[0] ?? null,
      one.sdInterval?.[1] ?? null,
      one.limit,
    ]),
  );
  return header + lines.join('');
}

const header = csvLine([
  'by',
  'group',
  'rule',
  'side',
  'unit',
  'visits',
  'is_few',
  'mean',
  'mean_low',
  'mean_high',
  'sd',
  'sd_low',
  'sd_high',
  'limit',
]);
