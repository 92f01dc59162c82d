import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { median, robustMean, select } from '../../../src/core/geometry/statistics.ts';

const number = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e6, max: 1e6 });
/** Few distinct values, so that ties are common. */
const crowded = fc.integer({ min: -3, max: 3 });
/** Order says nothing of the sign of a zero. */
const unsigned = (values: readonly number[]) => values.map((value) => value + 0);
const some = fc.oneof(
  fc.array(number, { minLength: 1, maxLength: 60 }),
  fc.array(crowded, { minLength: 1, maxLength: 60 }),
);
const ascending = (values: readonly number[]) => [...values].sort((a, b) => a - b);

describe('select', () => {
  it('gives what sorting gives, and leaves what lies beyond the count alone', () => {
    fc.assert(
      fc.property(some, fc.nat(), fc.array(number), (values, pick, rest) => {
        const k = pick % values.length;
        const data = Float64Array.from([...values, ...rest]);
        expect(select(data, values.length, k) + 0).toBe(ascending(values)[k]! + 0);
        expect([...data.subarray(values.length)]).toEqual(rest);
        expect(unsigned(ascending([...data.subarray(0, values.length)]))).toEqual(unsigned(ascending(values)));
      }),
    );
  });

  it('stays linear on sorted, reversed and constant data', () => {
    const n = 1_000_000;
    const shapes: [(i: number) => number, number][] = [
      [(i) => i, n / 2],
      [(i) => n - i, n / 2 + 1],
      [() => 7, 7],
    ];
    for (const [value, middle] of shapes) {
      const data = Float64Array.from({ length: n }, (_, i) => value(i));
      // Were it quadratic, this would not end within the time that a test has.
      expect(select(data, n, n / 2)).toBe(middle);
    }
  });
});

describe('median', () => {
  it('is the middle of the sorted values, or the mean of the two in the middle', () => {
    fc.assert(
      fc.property(some, (values) => {
        const sorted = ascending(values);
        const half = values.length >> 1;
        const expected = values.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
        expect(median(Float64Array.from(values), values.length)).toBeCloseTo(expected, 9);
      }),
    );
  });

  it('of nothing is not a number', () => {
    expect(median(new Float64Array(3), 0)).toBeNaN();
  });
});

describe('robustMean', () => {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const robust = (values: readonly number[], floor = 0.5) =>
    robustMean(Float64Array.from(values), values.length, new Float64Array(values.length), floor);

  it('is the plain mean and standard deviation where nothing jumps', () => {
    // Within 0.5 of one another, so within the floor of the median.
    fc.assert(
      fc.property(
        fc.array(fc.double({ noNaN: true, min: 900, max: 900.5 }), { minLength: 2, maxLength: 80 }),
        (values) => {
          const { mean: found, sd, kept } = robust(values);
          const plain = mean(values);
          const plainSd = Math.sqrt(values.reduce((sum, value) => sum + (value - plain) ** 2, 0) / (values.length - 1));
          expect(found).toBeCloseTo(plain, 9);
          expect(sd).toBeCloseTo(plainSd, 9);
          expect(kept).toBe(values.length);
        },
      ),
    );
  });

  it('leaves out a tenth of the samples that lie on another marker', () => {
    const values = Array.from({ length: 100 }, (_, i) => (i % 10 === 3 ? 560 : 500 + Math.sin(i)));
    const quiet = values.filter((value) => value < 550);
    expect(robust(values).mean).toBeCloseTo(mean(quiet), 9);
    expect(robust(values).kept).toBe(90);
  });

  it('keeps its precision far from the origin', () => {
    const values = [1e7 + 0.1, 1e7 + 0.2, 1e7 + 0.3];
    expect(robust(values).mean - 1e7).toBeCloseTo(0.2, 8);
    expect(robust(values).sd).toBeCloseTo(0.1, 8);
  });

  it('of one sample is that sample, without spread', () => {
    expect(robust([3])).toEqual({ mean: 3, sd: 0, kept: 1 });
  });
});

describe('the robust mean', () => {
  /** The definition, by ordering. */
  function byOrdering(values: readonly number[], floor: number): { mean: number; sd: number; kept: number } {
    const middle = median(Float64Array.from(values), values.length);
    const deviation = median(
      Float64Array.from(values, (value) => Math.abs(value - middle)),
      values.length,
    );
    const reach = Math.max(6 * 1.4826 * deviation, floor);
    const kept = values.filter((value) => Math.abs(value - middle) <= reach);
    const mean = kept.reduce((sum, value) => sum + value - middle, 0) / kept.length;
    const squares = kept.reduce((sum, value) => sum + (value - middle - mean) ** 2, 0);
    return { mean: middle + mean, sd: kept.length > 1 ? Math.sqrt(squares / (kept.length - 1)) : 0, kept: kept.length };
  }

  it('is what ordering gives, also where a histogram spares the ordering', () => {
    const value = fc.oneof(
      { weight: 6, arbitrary: fc.double({ min: -3, max: 3, noNaN: true }) },
      { weight: 3, arbitrary: fc.integer({ min: -9, max: 9 }) },
      { weight: 1, arbitrary: fc.constantFrom(40, -25, 12, 1000) },
    );
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 200 }), fc.constantFrom(0, 0.5, 5), (values, floor) => {
        const found = robustMean(Float64Array.from(values), values.length, new Float64Array(values.length), floor);
        const expected = byOrdering(values, floor);
        expect(found.kept).toBe(expected.kept);
        expect(found.mean).toBeCloseTo(expected.mean, 9);
        expect(found.sd).toBeCloseTo(expected.sd, 6);
      }),
      { numRuns: 2000 },
    );
  });
});
