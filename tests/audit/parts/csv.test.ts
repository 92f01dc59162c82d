import { describe, expect, it } from 'vitest';
import { csvCell, csvHeader, csvOfRow } from '../../../src/audit/parts/csv.ts';
import { parseCsv } from '../../../src/audit/sample/parse-csv.ts';
import { madeRow, wandCheck } from '../make-row.ts';

describe('a cell', () => {
  // OWASP, "CSV Injection": = + - @, tab and carriage return start a formula; full-width forms in some programs, too.
  it.each(['=1+1', '+1', '-2+3', '@SUM(A1)', '\t=1', ' =1', '\r=1', '\uff1d1', '=cmd|" /C calc"!A0'])(
    'that a spreadsheet would run is text: %j',
    (text) => {
      expect(csvCell(text).replace(/^"/, '')[0]).toBe("'");
    },
  );

  it.each([
    [-12.5, '-12.5'],
    [null, ''],
    [true, 'true'],
    ['P-21', 'P-21'],
    ['a,b', '"a,b"'],
    ['say "x"', '"say ""x"""'],
  ])('holds %j', (value, written) => {
    expect(csvCell(value)).toBe(written);
  });

  it('writes out what would break a line or a terminal', () => {
    const cell = csvCell('a\nb\u001b[31m');
    for (const control of ['\n', '\u001b']) expect(cell).not.toContain(control);
  });
});

describe('rows', () => {
  it('have a line for each check, and one where there is none, all of the same width', () => {
    const rows = parseCsv(
      csvHeader +
        csvOfRow(madeRow({ subject: '=HYPERLINK("x")', checks: [wandCheck('right', 3), wandCheck('left', -4)] })) +
        csvOfRow(madeRow({ fault: 'Cut off, "early".' })),
    )!;
    expect(new Set(rows.map((row) => row.length)).size).toBe(1);
    expect(rows).toHaveLength(4);
    const column = (name: string) => rows.map((row) => row[rows[0]!.indexOf(name)]);
    expect(column('value')).toEqual(['value', '3', '-4', '']);
    expect(column('subject')[1]).toBe(`'=HYPERLINK("x")`);
    expect(column('fault')[3]).toBe('Cut off, "early".');
  });
});
