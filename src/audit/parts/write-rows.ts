import { randomBytes } from 'node:crypto';
import { rename, rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { describeSystemError } from '../../node/describe-system-error.ts';
import { InputError } from '../../node/input-error.ts';
import { csvHeader, csvOfRow } from './csv.ts';
import { jsonLinesToParquet } from './duckdb.ts';
import { writeTexts } from './json-lines.ts';
import type { PartHeader } from './part-file.ts';
import type { TrialRow } from './trial-row.ts';

export type RowFormat = 'parquet' | 'jsonl' | 'csv';

/** What rows are written as, by the ending of a file's name; null for another ending. */
export function rowFormatOf(path: string): RowFormat | null {
  const ending = /\.(parquet|jsonl|csv)$/i.exec(path)?.[1]?.toLowerCase();
  return (ending as RowFormat | undefined) ?? null;
}

/**
 * Writes the rows to an unfinished file, then renames it: nobody reads half of it.
 * @param header of a part; null for an export
 * @param scratchFolder on the same disk, where an unfinished file lies meanwhile
 * @throws {InputError} where it cannot be written
 */
export async function writeRows(
  path: string,
  rows: AsyncIterable<TrialRow>,
  header: PartHeader | null,
  scratchFolder = dirname(path),
): Promise<void> {
  const format = rowFormatOf(path)!;
  const scratch = (ending: string): string =>
    join(scratchFolder, `.${basename(path).slice(0, 100)}.${randomBytes(6).toString('hex')}.${ending}`);
  const lines = scratch('tmp');
  const parquet = scratch('parquet.tmp');
  try {
    await writeTexts(lines, textsOf(format, rows, format === 'jsonl' ? header : null));
    if (format === 'parquet') await jsonLinesToParquet(lines, parquet, header === null ? null : JSON.stringify(header));
    await rename(format === 'parquet' ? parquet : lines, path);
  } catch (error) {
    if (error instanceof InputError || !(error instanceof Error && 'code' in error)) throw error;
    throw describeSystemError(`Cannot write ${basename(path)}`, error);
  } finally {
    await rm(lines, { force: true });
    await rm(parquet, { force: true });
  }
}

async function* textsOf(
  format: RowFormat,
  rows: AsyncIterable<TrialRow>,
  header: PartHeader | null,
): AsyncIterable<string> {
  if (header !== null) yield `${JSON.stringify(header)}\n`;
  if (format === 'csv') yield csvHeader;
  for await (const row of rows) yield format === 'csv' ? csvOfRow(row) : `${JSON.stringify(row)}\n`;
}
