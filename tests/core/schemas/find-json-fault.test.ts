import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findJsonFault } from '../../../src/core/schemas/find-json-fault.ts';

const values = 'a value: a text in double quotes, a number, true, false, a list or an object';

describe('findJsonFault', () => {
  it.each([
    ['', 1, 1, '/', `found the end of the file, expected ${values}; check that the whole file was saved`],
    [
      '{"a": 1,}',
      1,
      9,
      '/',
      'found "}", expected a field name in double quotes; take out the comma before it, or write what is missing',
    ],
    ['[1, 2,\n]', 2, 1, '/2', `found "]", expected ${values}; take out the comma before it, or write what is missing`],
    ['{"a": 1\n "b": 2}', 2, 2, '/a', 'found "\\"", expected a comma or "}"; write it before that'],
    [
      '{"a": 12,5}',
      1,
      10,
      '/',
      'found "5", expected a field name in double quotes; write decimals with a point, or the missing sign before it',
    ],
    [
      '{"a" 1}',
      1,
      6,
      '/a',
      'found "1", expected a colon after the field name; write decimals with a point, or the missing sign before it',
    ],
    ['{"a": {"b": [true, nul]}}', 1, 20, '/a/b/1', `found "n", expected ${values}; correct it there`],
    ["{'a': 1}", 1, 2, '/', 'found "\'", expected a field name in double quotes; write straight double quotes'],
    ['{"a": \u201cx\u201d}', 1, 7, '/a', `found "\u201c", expected ${values}; write straight double quotes`],
    ['{"a": 1} // done', 1, 10, '/', 'found "/", expected nothing more; take the comment out, JSON has none'],
    [
      '{"a": "x\ny"}',
      1,
      7,
      '/a',
      'found a text that does not end on its line, expected a closing quote; write it on one line',
    ],
    ['{"a": "x', 1, 7, '/a', 'found a text that never ends, expected a closing quote; write it'],
    ['{"a": "C:\\labs"}', 1, 7, '/a', 'found a text with a backslash that means nothing; take it out'],
    ['{"a": "\\u12"}', 1, 7, '/a', 'found a text with a backslash that means nothing; take it out'],
    [
      '{"a": 1, "a": 2}',
      1,
      10,
      '/',
      'found the field "a" twice in one object, so that one would be lost; take one out',
    ],
    [
      '{"a": 1, "\\u0061": 2}',
      1,
      10,
      '/',
      'found the field "a" twice in one object, so that one would be lost; take one out',
    ],
    ['{"a": 1e999}', 1, 7, '/a', 'found a number that is too large to be meant, expected an ordinary one; correct it'],
    [
      '{"a": 01}',
      1,
      8,
      '/a',
      'found "1", expected a comma or "}"; write decimals with a point, or the missing sign before it',
    ],
    ['{"a": 1', 1, 8, '/a', 'found the end of the file, expected a comma or "}"; check that the whole file was saved'],
    [
      `${'['.repeat(65)}`,
      1,
      65,
      `/0${'/0'.repeat(60)}`,
      'found more than 64 levels inside each other; write it flatter',
    ],
  ])('%j', (text, line, character, pointer, trouble) => {
    expect(findJsonFault(text)).toEqual({ line, character, pointer, trouble });
  });

  it('takes whatever JSON.stringify writes, however it is spaced', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 5 }), fc.constantFrom('', ' ', '\t', 4), (value, space) => {
        expect(findJsonFault(JSON.stringify(value, null, space))).toBeNull();
      }),
    );
  });

  it('never takes what JSON.parse refuses, and refuses beyond that only what is written twice, too deep or too large', () => {
    const pieces = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      ',',
      ':',
      '"a"',
      '"b"',
      '1',
      '-',
      '.5',
      'e3',
      'true',
      'nul',
      ' ',
      '"',
      '\\',
      '\n',
    );
    let taken = 0;
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 9 }), (parts) => {
        const text = parts.join('');
        const fault = findJsonFault(text);
        if (fault === null) taken += 1;
        let parses = true;
        try {
          JSON.parse(text);
        } catch {
          parses = false;
        }
        if (fault === null || !/twice|levels|too large/.test(fault.trouble))
          expect([text, fault === null]).toEqual([text, parses]);
      }),
      { numRuns: 3000 },
    );
    expect(taken).toBeGreaterThan(20);
  });
});
