import { isDate } from '../../core/session/is-date.ts';
import type { VisitField } from './visit.ts';

/** What the session format takes for a code: no space, nothing invisible. A text with a space is likely a name. */
const code = /^[^\s\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]{1,64}$/u;

/** A stored text as a value of a visit's field; null where it is not one. Days may be written 20260302. */
export function readCode(field: VisitField, text: string): string | null {
  if (field !== 'on') return code.test(text) ? text : null;
  const [, year, month, day] = /^(\d{4})-?(\d{2})-?(\d{2})$/.exec(text) ?? [];
  if (year === undefined) return null;
  const written = `${year}-${month}-${day}`;
  return isDate(written) ? written : null;
}
