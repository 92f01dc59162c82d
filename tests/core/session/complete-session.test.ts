import { describe, expect, it } from 'vitest';
import { type C3dParameter, readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { writeC3d } from '../../../src/core/c3d/write-c3d.ts';
import { completeSession } from '../../../src/core/session/complete-session.ts';
import { measuredMm } from '../../../src/core/session/measured.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { type Loose, parseChanged, refusalOfText, shippedText } from '../marker-set/changed-set.ts';

const mapping = [
  { measure: 'legLength', side: 'left', parameter: 'SHEET:LeftLeg', unit: 'mm' },
  { measure: 'legLength', side: 'right', parameter: 'SHEET:RightLeg', unit: 'mm' },
  { measure: 'stature', parameter: 'SHEET:STATURE', unit: 'cm' },
  { measure: 'mass', parameter: 'NOWHERE:MASS', unit: 'kg' },
];
const set = parseChanged(({ set: written }: Loose) => {
  written.measurementsIn = mapping;
});

function trial(values: Readonly<Record<string, number>>) {
  const parameters = new Map(
    Object.entries(values).map(([name, value]): [string, C3dParameter] => [
      name,
      { name, description: '', type: 'float', dimensions: [], values: [value] },
    ]),
  );
  return readC3d(
    writeC3d({
      labels: ['A'],
      pointCount: 1,
      frameCount: 1,
      rateHz: 100,
      units: 'mm',
      firstFrame: 1,
      values: new Float64Array([1, 2, 3, 0]),
      groups: [{ name: 'SHEET', description: '', parameters }],
    }),
  );
}

describe('completeSession', () => {
  it('takes from the trial what the session does not give, and says where from', () => {
    const recorded = {
      ...emptySession,
      measurements: [{ measure: 'legLength' as const, side: 'right' as const, value: 90, unit: 'cm' as const }],
    };
    const session = completeSession(recorded, trial({ LEFTLEG: 905, RIGHTLEG: 1, STATURE: 171.5 }), set);
    expect(measuredMm(session, 'legLength', 'left')).toBe(905);
    expect(measuredMm(session, 'legLength', 'right')).toBe(900);
    expect(measuredMm(session, 'stature', null)).toBe(1715);
    expect(session.measurements.map(({ parameter }) => parameter)).toEqual([
      undefined,
      'SHEET:LeftLeg',
      'SHEET:STATURE',
    ]);
  });

  it.each([0, -5, Number.NaN, Number.POSITIVE_INFINITY])('takes %d for not measured', (value) => {
    expect(completeSession(emptySession, trial({ LEFTLEG: value }), set)).toBe(emptySession);
  });

  it('confirms every marker that a confirmed rule may ask to move', () => {
    const settled = { by: 'AC', on: '2026-03-02', reason: 'seen' };
    const session = completeSession(
      { ...emptySession, confirmedRules: [{ rule: 'asis-level', ...settled }] },
      trial({}),
      set,
    );
    const labels = set.rules.find(({ id }) => id === 'asis-level')!.mayMove;
    expect(labels.length).toBeGreaterThan(1);
    expect(session.confirmed).toEqual(labels.map((marker) => ({ marker, ...settled })));
  });
});

describe('a mapping that does not fit', () => {
  const refusal = (entry: object) => {
    const written = JSON.parse(shippedText());
    return refusalOfText(JSON.stringify({ ...written, measurementsIn: [mapping[0], entry] }))?.message;
  };

  it.each([
    [{ ...mapping[1], unit: 'kg' }, 'found "kg", expected "mm", "cm", "m" or "in"; correct the unit, or the measure'],
    [{ ...mapping[1], side: undefined }, 'found no side, expected "right" or "left" for this measure; add "side"'],
    [{ ...mapping[2], side: 'left' }, 'found a side, but this measure has none; take "side" out'],
    [mapping[0], 'found the same measurement as in /measurementsIn/0; take one out'],
    [
      { ...mapping[1], parameter: 'LEFTLEG' },
      'found "LEFTLEG", expected group and name of a C3D parameter with a colon between them, such as TRIAL:ASSESSOR; correct it',
    ],
  ])('%j is refused', (entry, trouble) => {
    expect(refusal(entry as object)).toContain(trouble);
  });
});
