import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { daysBetween } from '../../../src/core/practice/days-between.ts';

const day = fc.date({ min: new Date('1900-01-01'), max: new Date('2399-12-31'), noInvalidDate: true });
const written = (date: Date): string => date.toISOString().slice(0, 10);

describe('daysBetween', () => {
  it('counts as the calendar of the machine does', () => {
    fc.assert(
      fc.property(day, day, (a, b) => {
        const days = (Date.parse(written(b)) - Date.parse(written(a))) / 86_400_000;
        expect(daysBetween(written(a), written(b))).toBe(days);
      }),
    );
  });

  it('knows leap days', () => {
    expect(daysBetween('2028-02-28', '2028-03-01')).toBe(2);
    expect(daysBetween('2100-02-28', '2100-03-01')).toBe(1);
    expect(daysBetween('2026-12-31', '2026-12-01')).toBe(-30);
  });
});
