import { describe, expect, it } from 'vitest';
import { fixed, roundTo } from '../../../src/core/report/rounding.ts';

describe('roundTo', () => {
  it.each([
    [1, 0.05, 0.1],
    [1, -0.05, -0.1],
    [1, -0.04, 0],
    [1, -0, 0],
    [1, 14.25, 14.3],
    [3, 0.0005, 0.001],
    [0, -2.5, -3],
    [1, Number.NaN, null],
    [1, Number.NEGATIVE_INFINITY, null],
  ])('to %i decimals: %d gives %d', (decimals, value, expected) => {
    // toBe tells 0 from -0.
    expect(roundTo(decimals, value)).toBe(expected);
  });
});

describe('fixed', () => {
  it('writes every decimal, no minus before zero, and a dash for nothing', () => {
    expect([fixed(1, 5), fixed(1, -0.04), fixed(3, 0.1), fixed(1, null), fixed(1, Number.NaN)]).toEqual([
      '5.0',
      '0.0',
      '0.100',
      '-',
      '-',
    ]);
  });
});
