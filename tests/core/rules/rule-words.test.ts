import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundsOf } from '../../../src/core/rule-kinds/allowed.ts';
import { figure, sayValue } from '../../../src/core/rules/rule-words.ts';

const bounds = boundsOf({ target: 10, limit: 5 }, 2);

describe('figure', () => {
  it.each([
    [14.49, 'mm', '14 mm'],
    [14.5, 'mm', '15 mm'],
    [-0.4, 'mm', '0 mm'],
    [-7.6, 'deg', '-8°'],
    [0.978, 'ratio', '0.98'],
  ] as const)('%d %s is said as %s', (value, unit, said) => {
    expect(figure(value, unit)).toBe(said);
  });
});

describe('sayValue', () => {
  it('goes by the side of what is expected, and gives the value with its sign', () => {
    const says = { saysAbove: 'above: {value}', saysBelow: 'below: {value}', unit: 'mm' } as const;
    expect(sayValue(says, 12, bounds)).toBe('above: 12 mm');
    expect(sayValue(says, 8, bounds)).toBe('below: 8 mm');
    expect(sayValue(says, -8, bounds)).toBe('below: -8 mm');
  });

  it('goes by the sign of the value where the sentence gives the size alone', () => {
    const says = { saysAbove: 'right higher by {size}', saysBelow: 'right lower by {size}', unit: 'mm' } as const;
    // 4 is below the expected 10, but the right side is the higher one all the same.
    expect(sayValue(says, 4, bounds)).toBe('right higher by 4 mm');
    expect(sayValue(says, -4, bounds)).toBe('right lower by 4 mm');
  });

  it('gives how far it is from what is expected, without a sign', () => {
    const says = { saysAbove: '{off} too high', saysBelow: '{off} too low', unit: 'deg' } as const;
    expect(sayValue(says, 17, bounds)).toBe('7° too high');
    expect(sayValue(says, -2, bounds)).toBe('12° too low');
  });

  it('fills every place, and lets no figure stand for a pattern', () => {
    const says = { saysAbove: '{value} {value} $& {off}', saysBelow: '-', unit: 'mm' } as const;
    expect(sayValue(says, 12, bounds)).toBe('12 mm 12 mm $& 2 mm');
    fc.assert(
      fc.property(fc.double({ min: -500, max: 500, noNaN: true }), (value) => {
        expect(sayValue({ ...says, saysBelow: says.saysAbove }, value, bounds)).not.toContain('{');
      }),
    );
  });
});
