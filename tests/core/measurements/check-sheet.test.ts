import { describe, expect, it } from 'vitest';
import type { Measure, MeasureUnit } from '../../../src/core/marker-set/measure.ts';
import { checkSheet } from '../../../src/core/measurements/check-sheet.ts';
import { expectedSize } from '../../../src/core/measurements/expected-size.ts';
import { emptySession, type Measurement, type Session } from '../../../src/core/session/session.ts';

type Row = readonly [Measure, Measurement['side'], number, MeasureUnit];

/** A textbook adult: sizes of the conventional model's worked adult (leg 900, pelvis 240, depth 80, knee 100, ankle 72 mm). */
const adult: readonly Row[] = [
  ['mass', null, 74, 'kg'],
  ['stature', null, 175, 'cm'],
  ['pelvisWidth', null, 240, 'mm'],
  ['asisTrochanterDepth', 'right', 80, 'mm'],
  ['asisTrochanterDepth', 'left', 79, 'mm'],
  ['legLength', 'right', 900, 'mm'],
  ['legLength', 'left', 896, 'mm'],
  ['kneeDiameter', 'right', 100, 'mm'],
  ['kneeDiameter', 'left', 101, 'mm'],
  ['ankleDiameter', 'right', 72, 'mm'],
  ['ankleDiameter', 'left', 73, 'mm'],
];

/** Six years old; CDC 2000 median stature, sizes of the joints between those of five and ten years (both from memory). */
const child: readonly Row[] = [
  ['mass', null, 20.5, 'kg'],
  ['stature', null, 1150, 'mm'],
  ['pelvisWidth', null, 162, 'mm'],
  ['asisTrochanterDepth', 'right', 32, 'mm'],
  ['asisTrochanterDepth', 'left', 33, 'mm'],
  ['legLength', 'right', 565, 'mm'],
  ['legLength', 'left', 563, 'mm'],
  ['kneeDiameter', 'right', 72, 'mm'],
  ['kneeDiameter', 'left', 72, 'mm'],
  ['ankleDiameter', 'right', 51, 'mm'],
  ['ankleDiameter', 'left', 52, 'mm'],
];

function session(rows: readonly Row[], about: Partial<Session> = {}, ageYears = 34): Session {
  return {
    ...emptySession,
    subject: { code: 'MR-01', ageYears, sex: 'male' },
    measurements: rows.map(([measure, side, value, unit]) => ({ measure, side, value, unit })),
    ...about,
  };
}

/** The rows with one reading written down otherwise. */
function misread(
  rows: readonly Row[],
  measure: Measure,
  side: Measurement['side'],
  value: number,
  unit?: MeasureUnit,
): Row[] {
  return rows.map((row) => (row[0] === measure && row[1] === side ? [measure, side, value, unit ?? row[3]] : row));
}

const asked = (one: Session) =>
  checkSheet(one)
    .filter(({ status }) => status === 'repeat')
    .map(({ check, readings }) => [check, readings[0]!.measure, readings[0]!.side]);

describe('a sheet that is right', () => {
  it('asks for nothing of a textbook adult, nor of a six-year-old', () => {
    expect(checkSheet(session(adult))).toEqual([]);
    expect(checkSheet(session(child, {}, 6))).toEqual([]);
  });

  it('asks for nothing of women and men of every stature of ANSUR II between its first and 99th percentile', () => {
    // Gordon et al. 2014: statures 1482.5 to 1927 mm; bimalleolar breadth as a share of stature .0412 and .0426.
    for (const [sex, share, from, to] of [
      ['female', 0.0412, 1483, 1777],
      ['male', 0.0426, 1602, 1927],
    ] as const) {
      for (let stature = from; stature <= to; stature += 25) {
        const person = { ageYears: 30, sex, isAdult: true, statureMm: stature, legMm: null };
        const of = (measure: Measure) => expectedSize(measure, person).expected!;
        const rows: Row[] = [
          ['mass', null, of('mass'), 'kg'],
          ['stature', null, stature, 'mm'],
          ['pelvisWidth', null, of('pelvisWidth'), 'mm'],
          ...(['right', 'left'] as const).flatMap((side): Row[] => [
            ['asisTrochanterDepth', side, of('asisTrochanterDepth'), 'mm'],
            ['legLength', side, of('legLength'), 'mm'],
            ['kneeDiameter', side, of('kneeDiameter'), 'mm'],
            ['ankleDiameter', side, share * stature, 'mm'],
          ]),
        ];
        const one = session(rows, { subject: { code: null, ageYears: 30, sex } });
        expect(
          checkSheet(one).filter(({ status }) => status === 'repeat'),
          `${sex} ${stature}`,
        ).toEqual([]);
      }
    }
  });
});

describe('a slip on the sheet', () => {
  it('the inch scale of the pelvimeter, read and written down as centimetres, is named', () => {
    const one = session(misread(adult, 'pelvisWidth', null, 9.4, 'cm'));
    expect(asked(one)).toEqual([['unit-slip', 'pelvisWidth', null]]);
    expect(checkSheet(one)[0]!.says).toContain('the inch scale was read and 9.4 written down as centimetres');
    expect(checkSheet(one)[0]!.says).toContain('it would be 239 mm');
  });

  it('a wrong unit is named', () => {
    const one = session(misread(adult, 'legLength', 'left', 89.6, 'mm'));
    expect(asked(one)).toEqual([['unit-slip', 'legLength', 'left']]);
    expect(checkSheet(one)[0]!.says).toContain('89.6 was read in centimetres and written down as millimetres');
  });

  it('a slanted depth, 25 mm too long, is told as that', () => {
    const one = session(misread(adult, 'asisTrochanterDepth', 'right', 105));
    expect(asked(one)).toEqual([['left-against-right', 'asisTrochanterDepth', 'right']]);
    expect(checkSheet(one)[0]!.says).toContain('perhaps the slanted distance was read there');
    const both = misread(misread(adult, 'asisTrochanterDepth', 'right', 105), 'asisTrochanterDepth', 'left', 104);
    const doubted = checkSheet(session(both)).filter(({ status }) => status === 'repeat');
    expect(doubted.map(({ check }) => check)).toEqual(['depth-against-ankle', 'depth-against-ankle']);
    expect(doubted[0]!.source).toContain('common practice');
  });

  it('knee and ankle in each other’s place are named', () => {
    const swapped = misread(misread(adult, 'kneeDiameter', 'right', 72), 'ankleDiameter', 'right', 100);
    const [finding] = checkSheet(session(swapped));
    expect(finding!.check).toBe('exchanged');
    expect(finding!.readings.map(({ measure }) => measure).toSorted()).toEqual(['ankleDiameter', 'kneeDiameter']);
  });

  it('right and left legs in each other’s place are named where the difference is recorded', () => {
    const unequal = misread(misread(adult, 'legLength', 'right', 880), 'legLength', 'left', 905);
    const facts = { ...emptySession.facts, legLengthDifferenceMm: 25 };
    const [finding] = checkSheet(session(unequal, { facts }));
    expect(finding!.check).toBe('exchanged');
  });

  it('a leg that does not go with the stature, and repeats that disagree', () => {
    const legs = misread(misread(adult, 'legLength', 'right', 730), 'legLength', 'left', 732);
    expect(asked(session(legs)).map(([check]) => check)).toEqual(['leg-against-stature', 'leg-against-stature']);
    expect(asked(session([...adult, ['kneeDiameter', 'right', 108, 'mm']]))).toEqual([
      ['repeats', 'kneeDiameter', 'right'],
    ]);
  });

  it('that was taken again and found right asks for nothing more', () => {
    const one = session(misread(adult, 'legLength', 'left', 860), {
      confirmedReadings: [{ measure: 'legLength', side: 'left', by: 'A2', on: '2026-03-02' }],
    });
    const found = checkSheet(one).filter(({ readings }) => readings[0]!.measure === 'legLength');
    expect(found.map(({ status }) => status)).toEqual(['confirmed']);
    expect(found[0]!.settled).toContain('by A2 on 2026-03-02');
  });
});

describe('depth against ankle', () => {
  it('is only told of children and short legs', () => {
    const rows = misread(misread(child, 'asisTrochanterDepth', 'right', 28), 'asisTrochanterDepth', 'left', 28);
    const found = checkSheet(session(rows, {}, 6));
    expect(found.map(({ check, status }) => [check, status])).toEqual([
      ['depth-against-ankle', 'note'],
      ['depth-against-ankle', 'note'],
    ]);
  });

  it('never lets the depth to the PSIS stand in for the one to the trochanter', () => {
    const rows = adult.filter(([measure]) => measure !== 'asisTrochanterDepth');
    const found = checkSheet(session([...rows, ['asisPsisDepth', null, 155, 'mm']]));
    expect(found.map(({ check, readings }) => [check, readings[0]!.measure])).toEqual([
      ['missing', 'asisTrochanterDepth'],
      ['missing', 'asisTrochanterDepth'],
    ]);
  });
});
