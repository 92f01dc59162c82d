import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type HistoryLine, historyLine, isNamedMove, parseHistory } from '../../../src/core/practice/history.ts';

const lines: readonly HistoryLine[] = [
  {
    kind: 'session',
    session: 's1',
    trainee: 'AB',
    at: '2026-11-20T10:00:00+00:00',
    seed: 7,
    source: 'made',
    markerSet: 'set',
    trials: 8,
  },
  {
    kind: 'answer',
    session: 's1',
    trainee: 'AB',
    at: '2026-11-20T10:01:00+00:00',
    number: 1,
    trial: 'made-7-1',
    basis: 'planted',
    written: [{ marker: 'L_HEEL', way: 'up', mm: 12 }],
    scored: [{ outcome: 'found', marker: 'L_HEEL', named: 'L_HEEL', wayRight: true, errorMm: 0.5, landmark: 'HEEL' }],
  },
  {
    kind: 'sign-off',
    trainee: 'AB',
    signer: 'CD',
    landmark: 'HEEL',
    markerSet: 'set',
    on: '2026-11-21',
    due: '2027-11-21',
    evidence: { asked: 6, right: 5, invented: 0, made: 6, lastOn: '2026-11-20', placings: 3 },
    reason: '',
  },
  { kind: 'withdrawal', trainee: 'AB', signer: 'CD', landmark: 'HEEL', on: '2026-11-22', reason: 'wand bent' },
  {
    kind: 'repeat',
    trainee: 'AB',
    at: '2026-11-23T10:00:00+00:00',
    markerSet: 'set',
    placings: 3,
    landmarks: [{ landmark: 'HEEL', forwardMm: 1, upMm: 2, outwardMm: 0.5 }],
  },
];
const text = lines.map((line) => `${historyLine(line)}\n`).join('');

describe('parseHistory', () => {
  it('reads every kind of line as it was written', () => {
    const { lines: read, unread } = parseHistory(text);
    expect(unread).toBe(0);
    expect(read.map(({ kind }) => kind)).toEqual(['session', 'answer', 'sign-off', 'withdrawal', 'repeat']);
    expect(read).toEqual(lines.map((line) => ({ format: 'setsquare-practice/1', ...line })));
  });

  it('loses to a cut anywhere that line alone, and counts it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: text.length }), (end) => {
        const cut = text.slice(0, end);
        const whole = cut.split('\n').length - 1;
        const rest = cut.slice(cut.lastIndexOf('\n') + 1);
        const isWhole = text.split('\n').includes(rest) && rest !== '';
        const { lines: read, unread } = parseHistory(cut);
        expect(read).toHaveLength(whole + (isWhole ? 1 : 0));
        expect(unread).toBe(rest === '' || isWhole ? 0 : 1);
      }),
    );
  });

  it.each([
    ['a distance that is none', { ...lines[1], written: [{ marker: 'L_HEEL', way: 'up', mm: '12' }] }],
    ['a way that is none', { ...lines[1], written: [{ marker: 'L_HEEL', way: 'sideways', mm: 12 }] }],
    ['an outcome that is none', { ...lines[1], scored: [{ outcome: 'won', marker: 'L_HEEL', landmark: 'HEEL' }] }],
    ['a due day that is none', { ...lines[2], due: '2027-02-30' }],
    ['a spread that is none', { ...lines[4], landmarks: [{ landmark: 'HEEL', forwardMm: null }] }],
    ['a trainee that is a list', { ...lines[3], trainee: ['AB'] }],
  ])('counts a line with %s as unread', (_, line) => {
    expect(parseHistory(JSON.stringify({ format: 'setsquare-practice/1', ...line }))).toEqual({ lines: [], unread: 1 });
  });

  it('throws for no text at all', () => {
    fc.assert(
      fc.property(fc.string(), (any) => {
        expect(() => parseHistory(any)).not.toThrow();
      }),
    );
    fc.assert(
      fc.property(fc.json(), (any) => {
        expect(() => parseHistory(any)).not.toThrow();
      }),
    );
  });
});

describe('isNamedMove', () => {
  it('takes up to 300 mm', () => {
    expect(isNamedMove({ marker: 'C7', way: 'up', mm: 300 })).toBe(true);
    for (const mm of [0, -1, 301, Number.NaN, '5', null])
      expect(isNamedMove({ marker: 'C7', way: 'up', mm })).toBe(false);
  });
});
