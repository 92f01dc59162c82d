import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AnswerKey, ExpectedFinding } from '../../../src/core/practice/answer-key.ts';
import { type NamedMove, scoreVerdict } from '../../../src/core/practice/score-verdict.ts';

const goes = (marker: string, up: number, side: 'left' | 'right' = 'left') =>
  ({ marker, side, shift: { forward: 0, left: 0, up }, says: '' }) as const;
const finding = (...accepted: ExpectedFinding['accepted']): ExpectedFinding => ({
  accepted,
  isOptional: false,
  settledBy: '',
});
const key = (expected: readonly ExpectedFinding[], unseen: readonly string[] = []): AnswerKey => ({
  basis: 'planted',
  expected,
  unseen,
});
const heel = finding(goes('L_HEEL', 12));
const move = (marker: string, way: NamedMove['way'], mm: number): NamedMove => ({ marker, way, mm });

describe('scoreVerdict', () => {
  it('finds the marker, the way and by how much the distance is off', () => {
    expect(scoreVerdict([move('L_HEEL', 'up', 9)], key([heel])).findings).toEqual([
      { outcome: 'found', marker: 'L_HEEL', named: 'L_HEEL', wayRight: true, errorMm: -3 },
    ]);
  });

  it('takes the marker with the way turned round as found, and the way as wrong', () => {
    expect(scoreVerdict([move('L_HEEL', 'down', 12)], key([heel])).findings).toEqual([
      { outcome: 'found', marker: 'L_HEEL', named: 'L_HEEL', wayRight: false, errorMm: null },
    ]);
  });

  it('takes outward on the right for what it is there', () => {
    const knee = finding({ marker: 'R_LE', side: 'right', shift: { forward: 0, left: -10, up: 0 }, says: '' });
    const [out] = scoreVerdict([move('R_LE', 'outward', 10)], key([knee])).findings;
    const [into] = scoreVerdict([move('R_LE', 'inward', 10)], key([knee])).findings;
    expect([out!.wayRight, out!.errorMm, into!.wayRight]).toEqual([true, 0, false]);
  });

  it('counts a marker that nothing tells apart as right', () => {
    const tie = finding(goes('L_HEEL', 12), goes('L_MET5', -12));
    expect(scoreVerdict([move('L_MET5', 'down', 12)], key([tie])).findings[0]).toMatchObject({
      outcome: 'tied',
      marker: 'L_HEEL',
      named: 'L_MET5',
      wayRight: true,
    });
  });

  it('counts what was missed and what was named with nothing there, and keeps clean trials clean', () => {
    const { findings, keptClean } = scoreVerdict([move('C7', 'up', 10)], key([heel]));
    expect(findings.map(({ outcome, marker }) => [outcome, marker])).toEqual([
      ['missed', 'L_HEEL'],
      ['invented', 'C7'],
    ]);
    expect(keptClean).toBe(false);
    expect(scoreVerdict([], key([]))).toEqual({ findings: [], keptClean: true });
    expect(scoreVerdict([], key([heel])).keptClean).toBe(false);
    expect(scoreVerdict([move('C7', 'up', 10)], key([])).keptClean).toBe(false);
  });

  it('does not count what the program cannot see', () => {
    expect(scoreVerdict([move('S1', 'up', 30)], key([], ['S1'])).findings[0]!.outcome).toBe('untold');
  });

  it('is the same in whatever order markers are named', () => {
    const two = key([heel, finding(goes('R_HEEL', 8, 'right'), goes('R_MET5', -8, 'right'))]);
    const moves = [move('R_MET5', 'down', 8), move('L_HEEL', 'up', 3), move('R_HEEL', 'up', 8), move('C7', 'left', 20)];
    const scored = scoreVerdict(moves, two);
    fc.assert(
      fc.property(fc.shuffledSubarray(moves, { minLength: 4 }), (order) => {
        expect(scoreVerdict(order, two)).toEqual(scored);
      }),
    );
  });
});
