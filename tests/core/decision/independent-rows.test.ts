import { describe, expect, it } from 'vitest';
import { rowsThatAddNothing } from '../../../src/core/decision/independent-rows.ts';

function covarianceOf(rows: readonly (readonly number[])[]): Float64Array {
  return Float64Array.from(rows.flat());
}

describe('rowsThatAddNothing', () => {
  it('keeps rows that say something of their own, however alike', () => {
    expect(
      rowsThatAddNothing(
        covarianceOf([
          [4, 3.99],
          [3.99, 4],
        ]),
        2,
      ),
    ).toEqual([]);
  });

  it('finds a row that repeats another one, in whatever unit', () => {
    expect(
      rowsThatAddNothing(
        covarianceOf([
          [4, 1, -40],
          [1, 9, -10],
          [-40, -10, 400],
        ]),
        3,
      ),
    ).toEqual([2]);
  });

  it('finds a row that is the difference of two others', () => {
    expect(
      rowsThatAddNothing(
        covarianceOf([
          [5, 2, 3],
          [2, 4, -2],
          [3, -2, 5],
        ]),
        3,
      ),
    ).toEqual([2]);
  });

  it('finds what never varies, such as how far one ASIS stands in front of the other in a frame they span', () => {
    expect(
      rowsThatAddNothing(
        covarianceOf([
          [0, 0],
          [0, 2],
        ]),
        2,
      ),
    ).toEqual([0]);
  });
});
