import type { ReportedRule } from '../../core/report/report.ts';
import { decimalsOf, fixed } from '../../core/report/rounding.ts';
import { allowedEnds, type Scaled } from '../figure/rule-scale.tsx';

type Unit = ReportedRule['unit'];

const unitWords: Readonly<Record<Unit, string>> = { mm: ' mm', deg: '°', ratio: '' };

/** "-11.2 mm"; a dash where there is none. */
export function valueWords(value: number | null, unit: Unit): string {
  return value === null ? '–' : `${fixed(decimalsOf[unit], value)}${unitWords[unit]}`;
}

/** "-8.0 to 8.0 mm", "at least 15.0 mm". */
export function allowedWords(rule: Scaled, unit: Unit): string {
  const ends = allowedEnds(rule);
  if (ends === null) return '–';
  const [low, high] = [ends.low, ends.high].map((end) => (Number.isFinite(end) ? fixed(decimalsOf[unit], end) : null));
  if (low !== null && high !== null) return `${low} to ${high}${unitWords[unit]}`;
  if (low !== null) return `at least ${low}${unitWords[unit]}`;
  return high === null ? '–' : `at most ${high}${unitWords[unit]}`;
}

export const statusWords: Readonly<Record<ReportedRule['status'] | 'expected', string>> = {
  pass: 'pass',
  borderline: 'borderline',
  fail: 'fail',
  accepted: 'accepted',
  expected: 'expected',
  'not-assessed': 'not assessed',
};
