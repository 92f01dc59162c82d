import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Bounds, boundsOf, judge } from '../../../src/core/rule-kinds/allowed.ts';

describe('boundsOf', () => {
  it.each([
    ['a target', { target: 13, limit: 22 }, { reference: 13, low: -9, high: 35 }],
    ['a range', { range: [5, 70] }, { reference: 37.5, low: 5, high: 70 }],
    ['a range without an upper end', { range: [15, null] }, { reference: 15, low: 15, high: Number.POSITIVE_INFINITY }],
    ['a range without a lower end', { range: [null, 40] }, { reference: 40, low: Number.NEGATIVE_INFINITY, high: 40 }],
  ] as const)('of %s', (_, allowed, expected) => {
    expect(boundsOf(allowed, 3)).toEqual({ ...expected, borderline: 3 });
  });
});

const around: Bounds = boundsOf({ target: 10, limit: 8 }, 3);

describe('judge', () => {
  it.each([
    ['in the middle', 10, 'pass'],
    ['at the start of the band, above', 15, 'pass'],
    ['at the start of the band, below', 5, 'pass'],
    ['just inside the band', 15.000001, 'borderline'],
    ['exactly at the upper limit', 18, 'borderline'],
    ['exactly at the lower limit', 2, 'borderline'],
    ['just beyond the upper limit', 18.000001, 'fail'],
    ['just beyond the lower limit', 1.999999, 'fail'],
  ] as const)('a precise value %s: %s is %s', (_, value, expected) => {
    expect(judge(value, around, 0)).toBe(expected);
  });

  it('is exact at the limit for a value that is known well within its band', () => {
    // 2 SD is less than the band of 3: what is beyond the limit would still be borderline if it were 2 SD better.
    expect(judge(18.000001, around, 1.5)).toBe('fail');
    expect(judge(18, around, 1.5)).toBe('borderline');
  });

  it('keeps an uncertain value borderline until it is more than two standard deviations beyond the band', () => {
    const uncertainty = 5;
    const doubtEnds = around.high - around.borderline + 2 * uncertainty;
    expect(judge(doubtEnds, around, uncertainty)).toBe('borderline');
    expect(judge(doubtEnds + 1e-6, around, uncertainty)).toBe('fail');
    expect(judge(2 * around.reference - doubtEnds, around, uncertainty)).toBe('borderline');
    expect(judge(2 * around.reference - doubtEnds - 1e-6, around, uncertainty)).toBe('fail');
  });

  it('never fails on the open side', () => {
    const open = boundsOf({ range: [15, null] }, 5);
    expect(judge(1e9, open, 0)).toBe('pass');
    expect(judge(20, open, 0)).toBe('pass');
    expect(judge(19, open, 0)).toBe('borderline');
    expect(judge(14.9, open, 0)).toBe('fail');
  });

  it('passes whatever the uncertainty what lies inside the band, and treats both sides alike', () => {
    const value = fc.double({ min: -50, max: 70, noNaN: true });
    const uncertainty = fc.double({ min: 0, max: 30, noNaN: true });
    fc.assert(
      fc.property(value, uncertainty, (at, sd) => {
        const judged = judge(at, around, sd);
        expect(judged === 'pass').toBe(at >= 5 && at <= 15);
        if (Math.abs(Math.abs(at - 10) - 8) > 1e-9) expect(judge(20 - at, around, sd)).toBe(judged);
        // Less is known, so no finding may become firmer.
        if (judge(at, around, sd + 1) === 'fail') expect(judged).toBe('fail');
      }),
    );
  });
});
