import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { balancedPart } from '../../../src/core/study/balanced-part.ts';
import type { Placing } from '../../../src/core/study/study-capture.ts';

/** "AK1" for each session of an assessor; one string for each subject. */
function placings(...subjects: readonly string[]): Placing[] {
  return subjects.flatMap((row, at) =>
    row
      .split(' ')
      .filter(Boolean)
      .map((cell) => ({ subject: `V${at + 1}`, assessor: cell.slice(0, 2), session: cell.slice(2) })),
  );
}
const all = () => true;
const sizeOf = (captures: readonly Placing[]) => balancedPart(captures, all)?.size ?? null;

describe('the balanced part of a study', () => {
  it('is the whole where every assessor marked every subject equally often', () => {
    const whole = placings('AK1 AK2 BN1 BN2', 'AK1 AK2 BN1 BN2');
    expect(sizeOf(whole)).toEqual({ subjects: 2, assessors: 2, sessions: 2 });
    expect(balancedPart(whole, all)!.captures).toEqual([
      [
        [0, 1],
        [2, 3],
      ],
      [
        [4, 5],
        [6, 7],
      ],
    ]);
  });

  it('leaves out the subject, the session or the assessor that costs least', () => {
    expect(sizeOf(placings('AK1 AK2 BN1 BN2', 'AK1 AK2 BN1 BN2', 'AK1'))).toEqual({
      subjects: 2,
      assessors: 2,
      sessions: 2,
    });
    expect(sizeOf(placings('AK1 AK2 AK3 BN1 BN2', 'AK1 AK2 BN1 BN2'))).toEqual({
      subjects: 2,
      assessors: 2,
      sessions: 2,
    });
    expect(sizeOf(placings('AK1 AK2 BN1', 'AK1 AK2', 'AK1 AK2', 'AK1 AK2'))).toEqual({
      subjects: 4,
      assessors: 1,
      sessions: 2,
    });
  });

  it('is none where nothing was repeated', () => {
    expect(sizeOf(placings('AK1', 'BN1'))).toBeNull();
    expect(sizeOf([])).toBeNull();
  });

  it('passes over captures in which a quantity has no value', () => {
    const whole = placings('AK1 AK2', 'AK1 AK2', 'AK1 AK2');
    expect(balancedPart(whole, (index) => index !== 2)!.size).toEqual({ subjects: 2, assessors: 1, sessions: 2 });
  });

  it('takes no capture twice, and only those of its cell', () => {
    const cell = fc.record({
      subject: fc.constantFrom('V1', 'V2', 'V3'),
      assessor: fc.constantFrom('AK', 'BN', 'CS'),
    });
    fc.assert(
      fc.property(fc.array(cell, { maxLength: 24 }), (cells) => {
        const captures = cells.map((one, index) => ({ ...one, session: String(index) }));
        const part = balancedPart(captures, all);
        if (part === null) return;
        const used = part.captures.flat(2);
        expect(new Set(used).size).toBe(used.length);
        expect(used.length).toBe(part.size.subjects * part.size.assessors * part.size.sessions);
        part.captures.forEach((row, s) => {
          row.forEach((sessions, a) => {
            for (const index of sessions)
              expect(captures[index]).toMatchObject({ subject: part.subjects[s], assessor: part.assessors[a] });
          });
        });
      }),
    );
  });
});
