import { describe, expect, it } from 'vitest';
import { findLengthUnit } from '../../../src/core/pose/length-unit.ts';

describe('findLengthUnit', () => {
  it.each([
    ['mm', 870, 'mm', 1],
    [' MM ', 870, 'mm', 1],
    ['cm', 87, 'cm', 10],
    ['m', 0.87, 'm', 1000],
    ['m.', 0.87, 'm', 1000],
    ['in', 34, 'in', 25.4],
    ['dm', 8.7, 'dm', 100],
    ['ft', 2.9, 'ft', 304.8],
    ['mm', 260, 'mm', 1],
    ['mm', 1690, 'mm', 1],
  ])('trusts %s where the body measures %d', (declared, height, name, millimetres) => {
    expect(findLengthUnit(declared, height)).toEqual({ name, millimetres, trusted: true });
  });

  it.each([
    ['mm', 0.87, 'm'],
    ['mm', 87, 'cm'],
    ['mm', 20, 'in'],
    ['m', 870, 'mm'],
    [null, 870, 'mm'],
    ['', 0.87, 'm'],
    ['furlong', 870, 'mm'],
    ['__proto__', 870, 'mm'],
    ['constructor', 0.9, 'm'],
  ])('does not trust %s where the body measures %d, and takes %s', (declared, height, name) => {
    expect(findLengthUnit(declared, height)).toMatchObject({ name, trusted: false });
  });

  it.each([4, 0, -870, 20_000, Number.NaN, Number.POSITIVE_INFINITY])('knows no unit for a body of %d', (height) => {
    expect(findLengthUnit('mm', height)).toBeNull();
  });
});
