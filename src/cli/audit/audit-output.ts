import type { AuditReport } from '../../audit/analysis/audit-report.ts';
import { hasDuckDb } from '../../audit/parts/duckdb.ts';
import type { RowSource } from '../../audit/parts/part-file.ts';
import { forExport } from '../../audit/parts/without-names.ts';
import { rowFormatOf, writeRows } from '../../audit/parts/write-rows.ts';
import { unreadFiles } from '../../audit/report/audit-words.ts';
import { formatAuditCsv } from '../../audit/report/format-audit-csv.ts';
import { formatAuditText } from '../../audit/report/format-audit-text.ts';
import { roundAudit } from '../../audit/report/round-audit.ts';
import { jsonText } from '../../core/report/json-text.ts';
import { writeOutputAtomically } from '../../node/write-output-atomically.ts';
import type { Channels } from '../channels.ts';
import type { CommandContext } from '../command-context.ts';
import { UsageError } from '../usage-error.ts';

export interface AuditOutputOptions {
  readonly format: 'text' | 'json' | 'csv' | 'html';
  readonly output?: string;
  readonly export?: string;
  readonly most: number;
  readonly showNames?: boolean;
}

/** @throws {UsageError} for what could only be refused after all the work. */
export function checkOutputOptions(options: Pick<AuditOutputOptions, 'export'>): void {
  if (options.export !== undefined && rowFormatOf(options.export) === null) {
    throw new UsageError(`--export ${options.export} ends in none of .parquet, .csv, .jsonl; name it so that it does.`);
  }
}

/** Every row, without paths and whole hashes unless names are to be shown. JSON Lines in place of Parquet without DuckDB. */
export async function exportRows(
  rows: RowSource,
  options: Pick<AuditOutputOptions, 'export' | 'showNames'>,
  channels: Channels,
): Promise<void> {
  if (options.export === undefined) return;
  const wantsParquet = rowFormatOf(options.export) === 'parquet';
  const target =
    wantsParquet && !(await hasDuckDb()) ? options.export.replace(/\.parquet$/i, '.jsonl') : options.export;
  if (target !== options.export)
    channels.say(`Parquet needs the package @duckdb/node-api, which is not installed; ${target} was written instead.`);
  await writeRows(target, forExport(rows, options.showNames === true), null);
}

/** Prints the report in its format, or writes it; returns the exit code. */
export async function printAudit(
  report: AuditReport,
  options: AuditOutputOptions,
  context: CommandContext,
): Promise<number> {
  const shown = options.showNames === true ? report : withoutPaths(report);
  const text = await formatted(shown, options, context);
  if (options.output === undefined) await context.channels.report(text);
  else await writeOutputAtomically(options.output, text);
  const { total } = report.unreadable;
  if (total > 0) {
    context.channels.say(`${unreadFiles(total)}; --show-names says which, in the report.`);
  }
  return auditExitCode(report);
}

/** 2 where a file or folder could not be read, or a part is missing. */
export function auditExitCode({ unreadable, scope }: AuditReport): number {
  const isIncomplete = scope.unreadFolders > 0 || scope.missingParts.length > 0;
  return unreadable.total > 0 || isIncomplete ? 2 : 0;
}

async function formatted(
  report: AuditReport,
  { format, output }: AuditOutputOptions,
  { columns, color }: CommandContext,
): Promise<string> {
  switch (format) {
    case 'json':
      return jsonText(roundAudit(report));
    case 'csv':
      return formatAuditCsv(roundAudit({ ...report, charts: [] }));
    case 'html': {
      const { renderAuditPage } = await import('../../audit/page/render-audit-page.tsx');
      return renderAuditPage(report);
    }
    case 'text':
      // Text shows no chart: thousands of points need no rounding.
      return formatAuditText(
        roundAudit({ ...report, charts: [] }),
        output === undefined ? { columns, color: color(undefined) } : { columns: 80, color: false },
      );
  }
}

function withoutPaths(report: AuditReport): AuditReport {
  const { reexamine, unreadable } = report;
  return {
    ...report,
    reexamine: { ...reexamine, listed: reexamine.listed.map((trial) => ({ ...trial, path: null })) },
    unreadable: { ...unreadable, listed: unreadable.listed.map((file) => ({ ...file, path: null })) },
  };
}
