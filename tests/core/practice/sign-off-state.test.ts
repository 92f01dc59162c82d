import { describe, expect, it } from 'vitest';
import type { HistoryLine, SignOff } from '../../../src/core/practice/history.ts';
import { againstSigning, signOffStates } from '../../../src/core/practice/sign-off-state.ts';

const signed = (rest: Partial<SignOff> = {}): SignOff => ({
  kind: 'sign-off',
  trainee: 'AB',
  signer: 'CD',
  landmark: 'HEEL',
  markerSet: 'set',
  on: '2026-01-10',
  due: '2026-06-30',
  evidence: { asked: 6, right: 6, invented: 0, made: 6, lastOn: '2026-01-09', placings: 0 },
  reason: '',
  ...rest,
});
const on = (asOf: string, ...lines: HistoryLine[]) =>
  signOffStates({ lines, unread: 0 }, asOf).map(({ landmark, state, daysLeft }) => [landmark, state, daysLeft]);

describe('signOffStates', () => {
  it('stands on its due day and is overdue on the next', () => {
    expect(on('2026-06-30', signed())).toEqual([['HEEL', 'in-force', 0]]);
    expect(on('2026-07-01', signed())).toEqual([['HEEL', 'overdue', -1]]);
  });

  it('is not there before its day', () => {
    expect(on('2026-01-09', signed())).toEqual([]);
  });

  it('the newest line counts, for each landmark and trainee', () => {
    const again = signed({ on: '2026-06-01', due: '2027-06-01' });
    expect(on('2026-07-01', signed(), signed({ landmark: 'LM' }), again)).toEqual([
      ['HEEL', 'in-force', 335],
      ['LM', 'overdue', -1],
    ]);
  });

  it('a withdrawal ends it until it is signed again', () => {
    const withdrawal = {
      kind: 'withdrawal',
      trainee: 'AB',
      signer: 'EF',
      landmark: 'HEEL',
      on: '2026-02-01',
      reason: 'seen too low twice',
    } as const;
    expect(on('2026-01-31', signed(), withdrawal)).toEqual([['HEEL', 'in-force', 150]]);
    expect(on('2026-02-01', signed(), withdrawal)).toEqual([['HEEL', 'withdrawn', 149]]);
    expect(on('2026-03-01', signed(), withdrawal, signed({ on: '2026-03-01' }))[0]![1]).toBe('in-force');
    expect(on('2026-03-01', withdrawal)).toEqual([]);
  });
});

describe('againstSigning', () => {
  it('asks for five, and four in five right', () => {
    expect(againstSigning({ asked: 4, right: 4, invented: 0 })).toContain('fewer than 5');
    expect(againstSigning({ asked: 5, right: 4, invented: 0 })).toBe('');
    expect(againstSigning({ asked: 5, right: 3, invented: 0 })).toBe(
      '3 of 5 answers about it are right, less than 80 %',
    );
  });

  it('is not taken in by somebody who names a landmark every time', () => {
    expect(againstSigning({ asked: 5, right: 5, invented: 15 })).toContain('5 of 20');
  });
});
