import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isDate } from '../../../src/core/session/is-date.ts';
import { parseSession, SessionError } from '../../../src/core/session/parse-session.ts';
import { emptySession } from '../../../src/core/session/session.ts';

const samples = new URL('../../../sample-trials/', import.meta.url);
const format = 'setsquare-session/1';

function refusalOfText(text: string): { pointer: string; message: string } | null {
  try {
    parseSession(text);
    return null;
  } catch (error) {
    if (!(error instanceof SessionError)) throw error;
    return { pointer: error.pointer, message: error.message };
  }
}

const refusalOf = (fields: object) => refusalOfText(JSON.stringify({ format, ...fields }));
const measured = (reading: object) => ({
  measurements: [{ measure: 'legLength', side: 'left', value: 800, unit: 'mm', ...reading }],
});
const waived = (changes: object) => ({
  accepted: [{ rule: 'heel-level.left', reason: 'Foot on a wedge', by: 'AC', on: '2026-03-02', ...changes }],
});

describe('parseSession', () => {
  it('takes the format alone for a session in which nothing was recorded', () => {
    expect(parseSession(JSON.stringify({ format }))).toEqual(emptySession);
  });

  it.each(readdirSync(samples).filter((name) => name.endsWith('.session.json')))('reads %s', (name) => {
    const session = parseSession(readFileSync(new URL(name, samples), 'utf8'));
    expect(session.subject.code).toMatch(/^MR-\d+$/);
    expect(session.measurements.length).toBeGreaterThan(5);
  });

  it('fills in what is left out, side by side', () => {
    const session = parseSession(
      JSON.stringify({
        format,
        measurements: [
          { measure: 'stature', value: 1.62, unit: 'm' },
          { measure: 'stature', value: 162.4, unit: 'cm' },
        ],
        facts: { kneeTurnDeg: { left: -4 }, variants: [{ id: 'shod-or-braced' }], supported: true },
      }),
    );
    expect(session.measurements.map(({ side, value }) => [side, value])).toEqual([
      [null, 1.62],
      [null, 162.4],
    ]);
    expect(session.facts).toEqual({
      ...emptySession.facts,
      kneeTurnDeg: { right: null, left: -4 },
      variants: [{ id: 'shod-or-braced', side: null }],
      supported: true,
    });
  });

  it('counts every repeat as a reading of its own', () => {
    const session = parseSession(JSON.stringify({ format, ...measured({ repeats: [804, 802], instrument: 'tape' }) }));
    const reading = { measure: 'legLength', side: 'left', unit: 'mm', instrument: 'tape' };
    expect(session.measurements).toEqual([800, 804, 802].map((value) => ({ ...reading, value })));
  });

  it.each<[string, object, string, string]>([
    [
      'a mass in mm',
      measured({ measure: 'mass', side: undefined, unit: 'mm' }),
      '/measurements/0/unit',
      ' (measurement "mass"): found "mm", expected "kg" or "lb"; correct the unit, or the measure',
    ],
    [
      'a length in kg',
      measured({ unit: 'kg' }),
      '/measurements/0/unit',
      ' (measurement "legLength"): found "kg", expected "mm", "cm", "m" or "in"; correct the unit, or the measure',
    ],
    [
      'a leg length of no side',
      measured({ side: undefined }),
      '/measurements/0',
      ' (measurement "legLength"): found no side, expected "right" or "left" for this measure; add "side"',
    ],
    [
      'a stature of one side',
      measured({ measure: 'stature' }),
      '/measurements/0/side',
      ' (measurement "stature"): found "left", but this measure has no side; take it out',
    ],
    [
      'a unit that is not known',
      measured({ unit: 'inch' }),
      '/measurements/0/unit',
      ' (measurement "legLength"): found "inch", expected "mm", "cm", "m", "in", "kg" or "lb"; choose one of these',
    ],
    [
      'a measure that is misspelt',
      measured({ measure: 'leglength' }),
      '/measurements/0/measure',
      ': found "leglength", expected "mass", "stature", "pelvisWidth", "asisTrochanterDepth", "asisPsisDepth", "kneeDiameter", "ankleDiameter" or "legLength"; perhaps "legLength" is meant',
    ],
    [
      'a value in quotes',
      measured({ value: '800' }),
      '/measurements/0/value',
      ' (measurement "legLength"): found "800", expected a number; write it without quotes, with a point for the decimals',
    ],
    [
      'a value of nothing',
      measured({ value: 0 }),
      '/measurements/0/value',
      ' (measurement "legLength"): found 0, expected a number above 0; correct it',
    ],
    [
      'a value that no unit makes a length',
      measured({ value: 80000 }),
      '/measurements/0/value',
      ' (measurement "legLength"): found 80000, expected a number of at most 10000; correct it, and check its unit',
    ],
    [
      'a day that no calendar has',
      waived({ on: '2026-02-30' }),
      '/accepted/0/on',
      ' (accepted rule "heel-level.left"): found "2026-02-30", which is no day of the calendar; correct it',
    ],
    [
      'a day the other way round',
      waived({ on: '02.03.2026' }),
      '/accepted/0/on',
      ' (accepted rule "heel-level.left"): found "02.03.2026", expected a date written year-month-day, such as 2026-03-02; correct it',
    ],
    [
      'a waiver without a reason',
      waived({ reason: undefined }),
      '/accepted/0',
      ' (accepted rule "heel-level.left"): found no "reason", which is needed here; add it, or a "reasonCode"',
    ],
    [
      'a reason that is not on the list',
      waived({ reasonCode: 'bone-shap' }),
      '/accepted/0/reasonCode',
      ' (accepted rule "heel-level.left"): found "bone-shap", expected "on-the-bone", "measured-again", "bone-shape", "contracture", "soft-tissue", "skin", "device-in-the-way" or "cannot-stand-again"; perhaps "bone-shape" is meant',
    ],
    [
      'a confirmation of nothing',
      { confirmed: [{ by: 'AC', on: '2026-03-02' }] },
      '/confirmed/0',
      ': found none of "marker", "rule" and "measure", expected one of them; say what was confirmed',
    ],
    [
      'a confirmation of two things',
      { confirmed: [{ marker: 'R_LE', measure: 'stature', by: 'AC', on: '2026-03-02' }] },
      '/confirmed/0',
      ' (confirmed marker "R_LE"): found several of "marker", "rule" and "measure", expected one of them; say what was confirmed',
    ],
    [
      'a confirmed reading of no side',
      { confirmed: [{ measure: 'kneeDiameter', by: 'AC', on: '2026-03-02' }] },
      '/confirmed/0',
      ': found no side, expected "right" or "left" for this measure; add "side"',
    ],
    [
      'a stature in two parts',
      measured({ measure: 'stature', side: undefined, inTwoParts: true }),
      '/measurements/0/inTwoParts',
      ' (measurement "stature"): found it beside a measure that is no leg length; take it out',
    ],
    [
      'a visit on no day',
      { visit: { on: '2026-02-30' } },
      '/visit/on',
      ': found "2026-02-30", which is no day of the calendar; correct it',
    ],
    [
      'a name in place of a code',
      waived({ by: 'Anna Example' }),
      '/accepted/0/by',
      ' (accepted rule "heel-level.left"): found "Anna Example", expected a code without spaces, such as MR-02, and never a name; correct it',
    ],
    [
      'two waivers of one rule',
      { accepted: [...waived({}).accepted, ...waived({ reason: 'Shoe' }).accepted] },
      '/accepted/1',
      ' (accepted rule "heel-level.left"): found the same rule as in /accepted/0, of which only one would count; take one out',
    ],
    [
      'one variant twice',
      {
        facts: {
          variants: [
            { id: 'shod-or-braced', side: 'left' },
            { side: 'left', id: 'shod-or-braced' },
          ],
        },
      },
      '/facts/variants/1',
      ' (variant "shod-or-braced"): found the same variant and side as in /facts/variants/0, of which only one would count; take one out',
    ],
    [
      'two answers on one contracture',
      { facts: { contractures: [10, 20].map((angleDeg) => ({ joint: 'knee', side: 'left', angleDeg })) } },
      '/facts/contractures/1',
      ' (contracture "knee"): found the same joint and side as in /facts/contractures/0, of which only one would count; take one out',
    ],
    [
      'a null',
      { facts: { legLengthDifferenceMm: null } },
      '/facts/legLengthDifferenceMm',
      ': found null, expected a number; leave the field out where there is nothing to say',
    ],
    [
      'a misspelt fact',
      { facts: { legLengthDiferenceMm: 10 } },
      '/facts',
      ': found "legLengthDiferenceMm", which is not a field that is known here; write "legLengthDifferenceMm" if that is meant, or take it out',
    ],
    [
      'a fact outside the facts',
      { supported: true },
      '/',
      ': found "supported", which is not a field that is known here; known are "$schema", "format", "subject", "visit", "measurements", "facts", "accepted", "confirmed" and "walkingTrials", so check its spelling or take it out',
    ],
    [
      'an age below nothing',
      { subject: { ageYears: -4 } },
      '/subject/ageYears',
      ': found -4, expected a number of at least 0; correct it, and check its unit',
    ],
    [
      'a confirmed marker on no day',
      { confirmed: [{ marker: 'R_LE', by: 'AC', on: '2026-13-01' }] },
      '/confirmed/0/on',
      ' (confirmed marker "R_LE"): found "2026-13-01", which is no day of the calendar; correct it',
    ],
  ])('refuses %s', (_, fields, pointer, trouble) => {
    const place = pointer === '/' ? '' : `, at ${pointer}`;
    expect(refusalOf(fields)).toEqual({ pointer, message: `session${place}${trouble}.` });
  });

  it('takes a marker confirmed twice, and a variant on either side', () => {
    const confirmed = ['AC', 'BD'].map((by) => ({ marker: 'R_LE', by, on: '2026-03-02' }));
    const variants = (['right', 'left'] as const).map((side) => ({ id: 'shod-or-braced', side }));
    expect(refusalOf({ confirmed, facts: { variants } })).toBeNull();
  });

  it('tells line and character of what is not JSON', () => {
    expect(refusalOfText(`{"format": "${format}",\n "subject": {"code": MR-02}}`)?.message).toBe(
      'session, line 2, character 22 (in /subject/code): found "M", expected a value: a text in double quotes, a number, true, false, a list or an object; correct it there.',
    );
  });

  it('lets no __proto__ of a file near its own objects', () => {
    for (const place of ['facts', 'subject']) {
      const refusal = refusalOfText(`{"format": "${format}", "${place}": {"__proto__": {"supported": true}}}`);
      expect(refusal?.message).toContain(`session, at /${place}: found "__proto__", which is not a field`);
    }
    expect(({} as Record<string, unknown>).supported).toBeUndefined();
  });

  it('returns a session, or refuses in one printable sentence, whatever stands in a field', () => {
    const fields = ['subject', 'measurements', 'facts', 'accepted', 'confirmed', 'format', '__proto__', 'constructor'];
    const value = fc.oneof(fc.jsonValue({ maxDepth: 4 }), fc.string({ unit: 'binary' }));
    fc.assert(
      fc.property(fc.constantFrom(...fields), value, (field, content) => {
        const refusal = refusalOfText(JSON.stringify({ format, ...Object.fromEntries([[field, content]]) }));
        if (refusal === null) return;
        expect(refusal.pointer).toMatch(/^\//);
        expect(refusal.message).toMatch(/^session[,:] .*\.$/u);
        expect(refusal.message).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u);
        expect(refusal.message.length).toBeLessThan(400);
      }),
      { numRuns: 500 },
    );
  });
});

describe('isDate', () => {
  it.each([
    ['2024-02-29', true],
    ['2023-02-29', false],
    ['2000-02-29', true],
    ['1900-02-29', false],
    ['2026-04-31', false],
    ['2026-12-31', true],
    ['2026-00-10', false],
    ['2026-13-10', false],
    ['2026-01-00', false],
    ['0026-01-10', false],
  ])('%s: %s', (text, expected) => {
    expect(isDate(text)).toBe(expected);
  });
});
