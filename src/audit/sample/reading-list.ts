import { csvLine } from '../parts/csv.ts';
import type { DrawnSample } from './draw-sample.ts';

/** Columns of a reading list; the reader fills in those from `reader` on. */
export const readingColumns = [
  'number',
  'trial',
  'subject',
  'visit_on',
  'path',
  'reader',
  'verdict',
  'reasons',
  'non_conformance',
  'corrective_action',
  'due',
  'closed',
] as const;

/** A spreadsheet would take 00123456 or 12e45678 for a number and write another one back. */
export const beforeTrial = 'h-';

/** The list as a table to fill in. @param pathOf where a trial lies, with names only */
export function formatReadingList({ trials }: DrawnSample, pathOf: ReadonlyMap<string, string>): string {
  const lines = trials.map(({ trial, sha256, subject, on }, index) =>
    csvLine([index + 1, `${beforeTrial}${trial}`, subject, on, pathOf.get(sha256) ?? null, '', '', '', '', '', '', '']),
  );
  return csvLine(readingColumns) + lines.join('');
}
