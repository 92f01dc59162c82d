import { describe, expect, it } from 'vitest';
import type { AnsweredTrial, HistoryLine } from '../../../src/core/practice/history.ts';
import type { Outcome } from '../../../src/core/practice/score-verdict.ts';
import { signOffLines } from '../../../src/core/practice/sign-off-lines.ts';
import { traineeRecord } from '../../../src/core/practice/trainee-record.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

let number = 0;
function answer(on: string, ...scored: readonly (readonly [Outcome, string, number | null])[]): AnsweredTrial {
  number += 1;
  return {
    kind: 'answer',
    session: on,
    trainee: 'AB',
    at: `${on}T10:00:00+00:00`,
    number,
    trial: `made-1-${number}`,
    basis: 'planted',
    written: [],
    scored: scored.map(([outcome, landmark, errorMm]) => ({
      outcome,
      marker: `L_${landmark}`,
      named: null,
      wayRight: outcome === 'found' || outcome === 'tied' ? errorMm !== null : null,
      errorMm,
      landmark,
    })),
  };
}
const times = <Item>(count: number, make: () => Item): Item[] => Array.from({ length: count }, make);
const of = (lines: readonly HistoryLine[], asOf = '2026-12-01') =>
  traineeRecord({ lines, unread: 0 }, 'AB', wands22, asOf);

// 6 times the heel: 5 found (one 4 mm too long, the others exact), 1 missed; 4 clean, one of them not left alone.
const lines = [
  ...times(4, () => answer('2026-11-20', ['found', 'HEEL', 0])),
  answer('2026-11-20', ['missed', 'HEEL', null]),
  answer('2026-11-25', ['found', 'HEEL', 4]),
  ...times(3, () => answer('2026-11-25')),
  answer('2026-11-25', ['invented', 'HEEL', null]),
];

describe('traineeRecord', () => {
  it('scores what was off and what was to be left alone apart', () => {
    const { made, stored, sessions, days } = of(lines);
    expect(made).toEqual({
      trials: 10,
      whollyRight: 8,
      faults: { asked: 6, right: 5 },
      clean: { asked: 4, right: 3 },
    });
    expect(stored.trials).toBe(0);
    expect([sessions, days]).toEqual([2, ['2026-11-20', '2026-11-25']]);
  });

  it('tells each landmark, its history by day and how far distances are off', () => {
    const heel = of(lines).landmarks.find(({ landmark }) => landmark === 'HEEL')!;
    expect(heel.made).toMatchObject({ asked: 6, right: 5, missed: 1, invented: 1, meanErrorMm: 0.8 });
    expect(heel.history).toEqual([
      { on: '2026-11-20', asked: 5, right: 4 },
      { on: '2026-11-25', asked: 1, right: 1 },
    ]);
    // Wilson, 5 of 6, worked by hand: (0.8333 + 0.3201 -/+ 0.4019) / 1.6402.
    expect(heel.made.interval!.map((share) => Math.round(share * 1000))).toEqual([436, 970]);
  });

  it('gives no share from fewer than five', () => {
    const heel = of(lines.slice(0, 4)).landmarks.find(({ landmark }) => landmark === 'HEEL')!;
    expect([heel.made.asked, heel.made.interval]).toEqual([4, null]);
  });

  it('counts nothing of later days, and nothing of others', () => {
    expect(of(lines, '2026-11-24').made.trials).toBe(5);
    expect(of(lines, '2026-11-19').days).toBeNull();
    expect(traineeRecord({ lines, unread: 0 }, 'EF', wands22, '2026-12-01').made.trials).toBe(0);
  });

  it('counts a trial the first time only, whatever is answered when it comes again', () => {
    const { made, again, landmarks } = of([
      ...lines,
      ...lines.map((line) => ({ ...line, at: '2026-11-28T10:00:00Z' })),
    ]);
    expect([made.trials, again]).toEqual([10, 10]);
    expect(landmarks.find(({ landmark }) => landmark === 'HEEL')!.made.asked).toBe(6);
  });

  it('keeps agreement with the program apart from the truth', () => {
    const judged = lines.map((line) => ({ ...line, basis: 'program' as const }));
    const { made, stored } = of([...judged, answer('2026-11-26')]);
    expect([made.trials, stored.trials, stored.whollyRight]).toEqual([1, 10, 8]);
  });
});

describe('signOffLines', () => {
  const wanted = {
    trainee: 'AB',
    signer: 'CD',
    landmarks: ['HEEL'],
    on: '2026-11-26',
    due: '2027-11-26',
    reason: '',
  };
  const sign = (rest: Partial<typeof wanted>, from: readonly HistoryLine[] = lines) =>
    signOffLines({ ...wanted, ...rest }, { lines: from, unread: 0 }, wands22);

  it('asks for a reason where the answers are not enough, and keeps what it rests on', () => {
    // 5 right of 6 asked and 1 named with nothing there: 71 %.
    expect(sign({})).toContain('5 of 7 answers about it are right');
    expect(sign({ reason: 'seen at the bedside' })).toMatchObject([
      { evidence: { asked: 6, right: 5, invented: 1, made: 6, lastOn: '2026-11-25' }, reason: 'seen at the bedside' },
    ]);
  });

  it('does not take five answers to one trial for five', () => {
    const one = answer('2026-11-20', ['found', 'HEEL', 0]);
    expect(
      sign(
        {},
        times(5, () => one),
      ),
    ).toContain('it was off in 1 of the answered trials');
  });

  it('is written without a reason where they are', () => {
    const enough = times(5, () => answer('2026-11-20', ['found', 'HEEL', 0]));
    expect(sign({ reason: 'not asked for' }, enough)).toMatchObject([{ landmark: 'HEEL', signer: 'CD', reason: '' }]);
  });

  it.each([
    [{ signer: 'AB' }, 'AB cannot sign for AB: somebody else signs.'],
    [{ due: '2026-11-26' }, 'Due 2026-11-26 is not after 2026-11-26; give a later day.'],
    [{ reason: 'x'.repeat(201) }, 'The reason has 201 characters, expected up to 200.'],
    [{ on: '2026-11-19' }, 'fewer than 5'],
  ])('refuses %o', (rest, sentence) => {
    expect(sign(rest)).toContain(sentence);
  });
});
