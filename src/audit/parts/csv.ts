import { escapeControls } from '../../core/report/escape-controls.ts';
import type { TrialRow } from './trial-row.ts';

/**
 * One cell. A text that a spreadsheet would take for a formula gets an apostrophe before it: one that starts with
 * = + - @, a tab or a line break, also behind blanks (OWASP, "CSV Injection"). Numbers stay numbers.
 */
export function csvCell(value: string | number | boolean | null): string {
  if (value === null) return '';
  if (typeof value !== 'string') return String(value);
  const safe = escapeControls(/^\s*[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/.test(value) ? `'${value}` : value);
  return /[",\n\r;]/.test(safe) || safe !== safe.trim() ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** A line with the line break that RFC 4180 asks for. */
export function csvLine(cells: readonly (string | number | boolean | null)[]): string {
  return `${cells.map(csvCell).join(',')}\r\n`;
}

const trialCells = (row: TrialRow) => [
  row.trial,
  row.sha256,
  row.path,
  row.subject,
  row.assessor,
  row.site,
  row.visit_on,
  row.age_years,
  row.sex,
  row.facts.join(' '),
  row.marker_set,
  row.marker_set_version,
  row.tool,
  row.verdict,
  row.rules_assessed,
  row.sway_mm,
  row.copies,
  row.fault,
];

export const csvHeader = csvLine([
  'trial',
  'sha256',
  'path',
  'subject',
  'assessor',
  'site',
  'visit_on',
  'age_years',
  'sex',
  'facts',
  'marker_set',
  'marker_set_version',
  'tool',
  'verdict',
  'rules_assessed',
  'sway_mm',
  'copies',
  'fault',
  'rule',
  'side',
  'basis',
  'unit',
  'status',
  'value',
  'expected',
  'limit',
  'uncertainty',
]);

/** A line for each check of a trial; a trial without checks has one line with those cells empty. */
export function csvOfRow(row: TrialRow): string {
  const trial = trialCells(row);
  if (row.checks.length === 0) return csvLine([...trial, ...new Array<null>(9).fill(null)]);
  return row.checks
    .map(({ rule, side, basis, unit, status, value, expected, limit, uncertainty }) =>
      csvLine([...trial, rule, side, basis, unit, status, value, expected, limit, uncertainty]),
    )
    .join('');
}
