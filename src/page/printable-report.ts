import { escapeControls } from '../core/report/escape-controls.ts';
import { roundReport } from '../core/report/format-json.ts';
import { ownName } from '../core/report/own-name.ts';
import type { Report } from '../core/report/report.ts';

/**
 * The report as a page may show it: rounded as its JSON is, what a browser would obey written out (control characters,
 * letters that turn the direction of writing), and the file's name nowhere, unless names are to be shown.
 */
export function printableReport(report: Report, showNames: boolean): Report {
  const { path } = report.trial;
  const names = showNames ? [] : [path, ownName(path)].filter((name) => name.length > 2);
  const print = (text: string): string =>
    escapeControls(names.reduce((told, name) => told.replaceAll(name, 'the file'), text));
  return mapTexts(roundReport(report), print) as Report;
}

/** `fromEntries` defines its keys, so that a marker called `__proto__` stays a marker. */
function mapTexts(value: unknown, print: (text: string) => string): unknown {
  if (typeof value === 'string') return print(value);
  if (Array.isArray(value)) return value.map((item) => mapTexts(item, print));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [print(key), mapTexts(item, print)]));
}
