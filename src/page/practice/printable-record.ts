import type { TraineeRecord } from '../../core/practice/trainee-record.ts';
import { escapeControls } from '../../core/report/escape-controls.ts';

/** Codes and reasons come from a file: what a browser or a reader would obey is written out. */
export function printableRecord(record: TraineeRecord): TraineeRecord {
  return printable(record) as TraineeRecord;
}

function printable(value: unknown): unknown {
  if (typeof value === 'string') return escapeControls(value);
  if (Array.isArray(value)) return value.map(printable);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, printable(item)]));
}
