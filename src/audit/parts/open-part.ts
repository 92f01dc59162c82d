import { ownName } from '../../core/report/own-name.ts';
import { describeSystemError } from '../../node/describe-system-error.ts';
import { InputError } from '../../node/input-error.ts';
import { parquetToJsonLines } from './duckdb.ts';
import { linesOf } from './json-lines.ts';
import { type PartHeader, type PartSource, partFormat } from './part-file.ts';
import { identityIn, readRow } from './read-row.ts';
import type { TrialRow } from './trial-row.ts';

/**
 * Opens a part, Parquet by its ending, else JSON Lines.
 * @param scratch path of a file that may be written meanwhile; whoever calls removes it
 * @throws {InputError} where it cannot be read or is no part of an audit.
 */
export async function openPart(path: string, scratch: string): Promise<PartSource> {
  const refuse = (found: string): InputError =>
    new InputError(
      `${ownName(path)}: ${found}, expected a part that an audit wrote`,
      'name a file of the folder parts in an audit store',
    );
  const isParquet = /\.parquet$/i.test(path);
  let first: string;
  try {
    first = isParquet ? await parquetToJsonLines(path, scratch) : await firstLine(path);
  } catch (error) {
    if (error instanceof InputError) throw error;
    if (error instanceof Error && 'code' in error) throw describeSystemError(`Cannot read ${ownName(path)}`, error);
    const [says = ''] = error instanceof Error ? error.message.split('\n') : [];
    if (/out of memory/i.test(says)) {
      throw new InputError(
        `${ownName(path)}: its rows do not fit into the memory that DuckDB may use`,
        'split the audit into more shares',
        { cause: error },
      );
    }
    throw refuse('found no Parquet file');
  }
  const header = readHeader(first);
  if (header === null) throw refuse('found no header of an audit');
  const rows = isParquet ? scratch : path;

  async function* lines(): AsyncIterable<{ line: string; number: number }> {
    let number = 0;
    for await (const line of linesOf(rows)) {
      number += 1;
      if (isParquet || number > 1) yield { line, number };
    }
  }
  return {
    header,
    async *identities() {
      for await (const { line } of lines()) yield identityIn(line);
    },
    async *rows(): AsyncIterable<TrialRow> {
      for await (const { line, number } of lines()) {
        const row = readRow(line);
        if (row === null) throw refuse(`found no row of an audit in line ${number}`);
        yield row;
      }
    },
  };
}

async function firstLine(path: string): Promise<string> {
  for await (const line of linesOf(path)) return line;
  return '';
}

function readHeader(text: string): PartHeader | null {
  try {
    const header = JSON.parse(text);
    const isPart = header?.format === partFormat && Array.isArray(header.sets) && isShare(header.share);
    return isPart && header.sets.every(isSummary) ? header : null;
  } catch {
    return null;
  }
}

function isShare(share: { number?: unknown; of?: unknown } | undefined): boolean {
  return Number.isInteger(share?.number) && Number.isInteger(share?.of);
}

function isSummary(set: Record<string, unknown>): boolean {
  return typeof set?.sha256 === 'string' && Array.isArray(set.rules) && Array.isArray(set.markers);
}
