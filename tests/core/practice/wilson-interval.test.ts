import { describe, expect, it } from 'vitest';
import { wilsonInterval } from '../../../src/core/practice/wilson-interval.ts';

describe('wilsonInterval', () => {
  // Newcombe 1998, Stat Med 17:857-872, table I, method 3 (score without continuity correction); from memory.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('%i of %i as Newcombe has it', (right, of, low, high) => {
    const [a, b] = wilsonInterval(right, of);
    expect(a).toBeCloseTo(low, 4);
    expect(b).toBeCloseTo(high, 4);
  });

  it('mirrors: all right is as far from none as none from all', () => {
    const [low, high] = wilsonInterval(7, 7);
    const [otherLow, otherHigh] = wilsonInterval(0, 7);
    expect([low, high]).toEqual([expect.closeTo(1 - otherHigh, 12), expect.closeTo(1 - otherLow, 12)]);
  });
});
