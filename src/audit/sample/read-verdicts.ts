import type { Verdict } from '../../core/report/report.ts';
import { isDate } from '../../core/session/is-date.ts';
import { InputError } from '../../node/input-error.ts';
import { parseCsv } from './parse-csv.ts';
import { beforeTrial } from './reading-list.ts';

/** What a reader said of one trial. */
export interface Reading {
  readonly trial: string;
  readonly reader: string;
  readonly verdict: Verdict;
  readonly reasons: string;
  readonly nonConformance: NonConformance | null;
}

export interface NonConformance {
  readonly says: string;
  readonly correctiveAction: string;
  readonly due: string | null;
  readonly closed: string | null;
}

export interface Readings {
  readonly readings: readonly Reading[];
  /** Lines whose verdict was left blank. */
  readonly unread: number;
}

const verdicts: readonly string[] = ['ready', 'adjust', 'not-assessable'] satisfies readonly Verdict[];

/**
 * Reads a reading list that was filled in. @param name of the file, for sentences
 * @throws {InputError} naming the line and what is wrong in it
 */
export function readVerdicts(text: string, name: string): Readings {
  const refuse = (line: number, found: string, expected: string): never => {
    throw new InputError(`${name}, line ${line}: found ${found}, expected ${expected}`, 'correct it and try again');
  };
  const rows = parseCsv(text) ?? refuse(1, 'a quotation mark that is never closed', 'one at the end of its cell');
  const [head = [], ...lines] = rows;
  const columns = new Map(head.map((column, index) => [column.trim().toLowerCase(), index]));
  for (const needed of ['trial', 'reader', 'verdict']) {
    if (!columns.has(needed)) refuse(1, `no column "${needed}"`, 'the columns of a reading list');
  }
  const readings: Reading[] = [];
  const seen = new Set<string>();
  let unread = 0;
  lines.forEach((row, index) => {
    const line = index + 2;
    const cell = (column: string): string => (row[columns.get(column) ?? -1] ?? '').trim();
    const day = (column: string): string | null => {
      const written = cell(column);
      if (written === '') return null;
      if (/^\d{4}-\d{2}-\d{2}$/.test(written) && isDate(written)) return written;
      return refuse(line, `"${written}" as ${column}`, 'a day such as 2026-03-02');
    };
    const written = cell('trial').toLowerCase();
    const trial = written.startsWith(beforeTrial) ? written.slice(beforeTrial.length) : written;
    const verdict = cell('verdict').toLowerCase();
    if (verdict === '') {
      unread += 1;
      return;
    }
    if (!/^[0-9a-f]{8}$/.test(trial)) refuse(line, `"${trial}" as trial`, 'the 8 digits of the list');
    if (!verdicts.includes(verdict)) refuse(line, `"${verdict}" as verdict`, verdicts.join(', '));
    const reader = cell('reader');
    if (!/^\S{1,64}$/u.test(reader)) refuse(line, `"${reader}" as reader`, "the reader's code, without spaces");
    const key = `${reader} ${trial}`;
    if (seen.has(key)) refuse(line, `trial ${trial} a second time by ${reader}`, 'one verdict a reader and trial');
    seen.add(key);
    const says = cell('non_conformance');
    const [due, closed] = [day('due'), day('closed')];
    if (says === '' && (cell('corrective_action') !== '' || due !== null || closed !== null))
      refuse(line, 'an action or a day without a non-conformance', 'what it is for');
    readings.push({
      trial,
      reader,
      verdict: verdict as Verdict,
      reasons: cell('reasons'),
      nonConformance: says === '' ? null : { says, correctiveAction: cell('corrective_action'), due, closed },
    });
  });
  return { readings, unread };
}
