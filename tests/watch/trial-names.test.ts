import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitsNames, isOtherTrial, usualNames } from '../../src/watch/trial-names.ts';

describe('names of standing trials', () => {
  it.each([
    ['Static 01.c3d', true],
    ['visit2_STANDING.C3D', true],
    ['stand.c3d', true],
    ['walk 01.c3d', false],
    ['static 01.c3d.part', false],
    ['.static 01.c3d', false],
    ['static.txt', false],
  ])('as is usual: %s %s', (name, fits) => {
    expect(fitsNames(name, usualNames)).toBe(fits);
  });

  it.each([
    ['cal*.c3d', 'cal01.c3d', true],
    ['cal??.c3d', 'cal1.c3d', false],
    ['*', 'anything', true],
    ['a*b*c', 'axxbyyc', true],
    ['a*b*c', 'axxbyy', false],
    ['[a].c3d', '[a].c3d', true],
    ['', '', true],
  ])('%s and %s: %s', (pattern, name, fits) => {
    expect(fitsNames(name, [pattern])).toBe(fits);
  });

  it('fit as a regular expression made of the same pattern would say', () => {
    const letter = fc.constantFrom('a', 'b', '*', '?');
    fc.assert(
      fc.property(fc.array(letter, { maxLength: 9 }), fc.array(fc.constantFrom('a', 'b'), { maxLength: 9 }), (p, n) => {
        const expected = new RegExp(`^${p.join('').replaceAll('*', '.*').replaceAll('?', '.')}$`).test(n.join(''));
        expect(fitsNames(n.join(''), [p.join('')])).toBe(expected);
      }),
    );
  });

  it('that do not fit are told of trials only', () => {
    expect(
      ['walk.c3d', 'notes.txt', '.walk.c3d', 'static.c3d'].filter((name) => isOtherTrial(name, usualNames)),
    ).toEqual(['walk.c3d']);
  });
});
