import { isDate } from '../../core/session/is-date.ts';
import { UsageError } from '../usage-error.ts';

/** A day of the calendar. @throws {UsageError} for anything else */
export function dayOption(flag: string, text: string): string {
  if (/^\d{4}-\d{2}-\d{2}$/.test(text) && isDate(text)) return text;
  throw new UsageError(`${flag} is "${text}", expected a day such as 2026-03-31.`);
}
