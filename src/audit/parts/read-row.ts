import { columnTypes } from './trial-columns.ts';
import type { TrialRow } from './trial-row.ts';

/** One line of a part as a row; null where it is none. */
export function readRow(line: string): TrialRow | null {
  let row: unknown;
  try {
    row = JSON.parse(line);
  } catch {
    return null;
  }
  if (!isObject(row)) return null;
  for (const [column, type] of Object.entries(columnTypes)) {
    if (!fits(row[column] ?? null, type)) return null;
  }
  return row as unknown as TrialRow;
}

/** Whether a value can be what DuckDB calls this type; scalars may be null, lists not. */
function fits(value: unknown, type: string): boolean {
  if (type.endsWith('[]')) {
    const inner = type.slice(0, -2);
    return Array.isArray(value) && value.every((item) => item !== null && fits(item, inner));
  }
  if (type.startsWith('STRUCT(')) {
    if (!isObject(value)) return false;
    return type
      .slice('STRUCT('.length, -1)
      .split(', ')
      .every((field) => {
        const [name, fieldType] = field.split(' ') as [string, string];
        return fits(value[name.replaceAll('"', '')] ?? null, fieldType);
      });
  }
  if (value === null) return true;
  if (type === 'BOOLEAN') return typeof value === 'boolean';
  return type === 'DOUBLE' || type === 'INTEGER' ? typeof value === 'number' : typeof value === 'string';
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The whole hash that a line starts with, without parsing the rest; null for a file that could not be read. */
export function identityIn(line: string): string | null {
  return /^\{"trial":"[^"]*","sha256":"([0-9a-f]{64})"/.exec(line)?.[1] ?? null;
}
