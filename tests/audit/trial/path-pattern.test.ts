import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { matchPathPattern, parsePathPattern } from '../../../src/audit/trial/path-pattern.ts';
import { unknownVisit } from '../../../src/audit/trial/visit.ts';

const match = (pattern: string, path: string) => matchPathPattern(parsePathPattern(pattern), path);

describe('a path pattern', () => {
  it('takes its fields from the folders and the name', () => {
    expect(match('{site}/*/{date}_{assessor}_{subject}_*.c3d', 'MR/2025-03/2025-03-09_AK_P00012_1.c3d')).toEqual({
      site: 'MR',
      on: '2025-03-09',
      assessor: 'AK',
      subject: 'P00012',
    });
  });

  it('lets a code hold the sign that parts it from a date', () => {
    expect(match('{subject}-{date}.c3d', 'MR-21-2026-03-02.c3d')).toMatchObject({ subject: 'MR-21', on: '2026-03-02' });
    expect(match('{subject}-{date}.c3d', 'MR-21-20260302.c3d')).toMatchObject({ subject: 'MR-21', on: '2026-03-02' });
  });

  it('goes across folders with two stars and within one with one', () => {
    expect(match('**/{assessor}.c3d', 'a/b/c/AK.c3d').assessor).toBe('AK');
    expect(match('**/{assessor}.c3d', 'AK.c3d').assessor).toBe('AK');
    expect(match('*/{assessor}.c3d', 'a/b/AK.c3d')).toEqual(unknownVisit);
  });

  it.each([
    ['a day that no calendar has', '{date}.c3d', '2026-02-30.c3d'],
    ['a path that does not fit', '{site}/{assessor}.c3d', 'AK.c3d'],
    ['a blank in a code, which may be a name', '{subject}.c3d', 'Jane Doe.c3d'],
  ])('knows nothing from %s', (_, pattern, path) => {
    expect(match(pattern, path)).toEqual(unknownVisit);
  });

  it('takes signs of regular expressions for what they are', () => {
    expect(match('(a+)+$/{assessor}.c3d', '(a+)+$/AK.c3d').assessor).toBe('AK');
    expect(match('(a+)+$/{assessor}.c3d', 'aaaa/AK.c3d')).toEqual(unknownVisit);
  });

  it('is not slowed down by a path made for it: 20 stars against 4000 letters', () => {
    const pattern = parsePathPattern(`${'*a'.repeat(20)}/{site}.c3d`);
    expect(matchPathPattern(pattern, `${'a'.repeat(4000)}.c3d`)).toEqual(unknownVisit);
  });

  it('gives back whatever codes a path was made of', () => {
    const code = fc.stringMatching(/^[A-Za-z0-9]{1,12}$/);
    fc.assert(
      fc.property(code, code, code, (site, assessor, subject) => {
        expect(match('{site}/{assessor}_{subject}.c3d', `${site}/${assessor}_${subject}.c3d`)).toEqual({
          site,
          assessor,
          subject,
          on: null,
        });
      }),
    );
  });

  it.each([
    ['{name}/x.c3d', '{name}'],
    ['{site}/{site}.c3d', 'twice'],
    ['*.c3d', 'no field'],
    ['{site', 'on its own'],
    ['{__proto__}', '{__proto__}'],
  ])('refuses %s', (pattern, found) => {
    expect(() => parsePathPattern(pattern)).toThrow(found);
  });
});
