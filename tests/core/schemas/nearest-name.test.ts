import { describe, expect, it } from 'vitest';
import { nearestName } from '../../../src/core/schemas/nearest-name.ts';
import { allOf, anyOf, quoted, show } from '../../../src/core/schemas/show-value.ts';

describe('nearestName', () => {
  it.each([
    ['R_HEAL', 'R_HEEL'],
    ['r_heel', 'R_HEEL'],
    ['lable', 'label'],
    ['heels', 'R_HEEL', null],
    ['GTX', 'R_GT', null],
    ['', 'a', 'a'],
    ['x'.repeat(81), 'x'.repeat(80), null],
  ])('%s', (name, known, expected: string | null = known) => {
    expect(nearestName(name, [known, 'something else'])).toBe(expected);
  });

  it('takes the nearest, and the first of equals', () => {
    expect(nearestName('R_L', ['R_LEM', 'R_LE', 'R_LM'])).toBe('R_LE');
  });
});

describe('quoted', () => {
  it.each([
    ['R_GT', '"R_GT"'],
    ['a"b', '"a\\"b"'],
    ['\u202eTG', '"\\u202eTG"'],
    ['\u001b[2J', '"\\u001b[2J"'],
    ['\ud800', '"\\ud800"'],
    ['\u811a', '"\u811a"'],
    ['x'.repeat(61), `"${'x'.repeat(57)}..."`],
    ['x'.repeat(100_000), `"${'x'.repeat(57)}..."`],
  ])('%j', (name, expected) => {
    expect(quoted(name)).toBe(expected);
  });
});

describe('lists in words', () => {
  it.each([
    [['a'], '"a"', '"a"'],
    [['a', 'b'], '"a" or "b"', '"a" and "b"'],
    [['a', 2, null], '"a", 2 or null', '"a", 2 and null'],
  ])('%j', (names, any, all) => {
    expect([anyOf(names), allOf(names)]).toEqual([any, all]);
  });

  it('cuts a long list and says so', () => {
    const names = Array.from({ length: 40 }, (_, index) => `name-${index}`);
    expect(anyOf(names)).toMatch(/^"name-0", .*"name-13" or one of 26 more$/);
  });

  it('says of lists and objects what they are', () => {
    expect([show([]), show([1]), show({}), show(undefined), show(null)]).toEqual([
      'an empty list',
      'a list',
      'an object in braces',
      'nothing',
      'null',
    ]);
  });
});
