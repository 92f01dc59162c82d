import type { Report } from '../../src/core/report/report.ts';
import { validateClosedReport } from '../core/report/report-schema.ts';

/** What a terminal, a page or an editor obeys instead of showing; line breaks are the report's own. */
const obeyed = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u;
const notANumber = /\b(?:NaN|Infinity|undefined)\b|\[object |-0\.0+\b(?!\d)/;

/** Throws where printed text could do harm or says something that is no figure. */
export function judgePrinted(text: string, what: string): void {
  const found = obeyed.exec(text.replaceAll('\n', ' '));
  if (found) throw new Error(`${what} holds the raw character U+${found[0].codePointAt(0)!.toString(16)}`);
  const odd = notANumber.exec(text);
  if (odd) throw new Error(`${what} says "${text.slice(Math.max(0, odd.index - 60), odd.index + 20)}"`);
}

/** Throws where a report, before it is rounded, holds a number that is none. */
export function judgeFigures(report: Report): void {
  walk(report, 'report');
}

function walk(value: unknown, path: string): void {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new Error(`${path} is ${value}`);
  } else if (value !== null && typeof value === 'object') {
    for (const key of Object.keys(value)) walk((value as Record<string, unknown>)[key], `${path}.${key}`);
  } else if (value === undefined) throw new Error(`${path} is undefined`);
}

const exitCodes: Readonly<Record<string, number>> = { ready: 0, adjust: 1, 'not-assessable': 2 };

/** Throws where finished JSON is no report of this format, or not safe to print. */
export function judgeJson(json: string): void {
  judgePrinted(json, 'the JSON');
  judgeReport(JSON.parse(json));
}

/** Throws where a value is no report of this format; returns the exit code that its verdict asks for. */
export function judgeReport(value: unknown): number {
  const report = value as Report;
  // Stricter than the schema as it ships, which lets more fields pass.
  if (!validateClosedReport(report)) {
    const { instancePath, message } = validateClosedReport.errors![0]!;
    throw new Error(`the JSON breaks the schema at ${instancePath}: ${message}`);
  }
  const code = exitCodes[report.verdict];
  if (code === undefined) throw new Error(`the verdict is ${report.verdict}`);
  return code;
}
