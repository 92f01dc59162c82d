import { describe, expect, it } from 'vitest';
import { makeSession } from '../../../src/core/practice/draw-session.ts';
import type { HistoryLine } from '../../../src/core/practice/history.ts';
import { PracticeRun } from '../../../src/core/practice/practice-run.ts';
import { alongWay, skinWays } from '../../../src/core/practice/skin-ways.ts';
import { begunSession, workshop } from '../../support/practice-workshop.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

const trials = makeSession(workshop, 21, 8, () => 1);
const start = { set: wands22, trials, begun: begunSession(21, 8), before: [] };

/** What was done to the trial, the other way: the truth. */
function truth({ key }: (typeof trials)[number]) {
  return key.expected.map(({ accepted: [{ marker, side, shift }] }) => {
    const ways = skinWays(wands22.markers.find(({ label }) => label === marker)!);
    const [best] = ways.map(({ way }) => ({ way, mm: alongWay(way, side, shift) })).sort((a, b) => b.mm - a.mm);
    return { marker, way: best!.way, mm: Math.round(best!.mm) };
  });
}

describe('PracticeRun', () => {
  it('gives full marks for the truth, with distances to a millimetre', () => {
    const kept: HistoryLine[] = [];
    const run = new PracticeRun(start, (line) => kept.push(line));
    for (const trial of trials) {
      const { answer } = run.answer(truth(trial), '2026-11-25T10:00:00+00:00');
      for (const { outcome, wayRight, errorMm } of answer.scored) {
        expect([outcome, wayRight]).toEqual(['found', true]);
        expect(Math.abs(errorMm!)).toBeLessThanOrEqual(1);
      }
    }
    expect(run.summary()).toMatchObject({ trials: 8, right: 8 });
    expect(kept.map(({ kind }) => kind)).toEqual(['session', ...trials.map(() => 'answer')]);
    expect(run.current).toBeNull();
    expect(() => run.answer([], '')).toThrow(RangeError);
  });

  it('gives whoever names nothing the trials with nothing to move, and says that this is chance', () => {
    const run = new PracticeRun(start, () => {});
    for (const _ of trials) run.answer([], '2026-11-25T10:00:00+00:00');
    const clean = trials.filter(({ key }) => key.expected.length === 0).length;
    const { right, says } = run.summary();
    expect(right).toBe(clean);
    expect(says[0]).toBe(`${clean} of 8 trials wholly right; naming nothing throughout would have made it ${clean}.`);
  });

  it('tells nothing where the verdict could not be kept, and takes it again', () => {
    const run = new PracticeRun(start, () => {
      throw new Error('The disk is full.');
    });
    expect(() => run.answer([], '2026-11-25T10:00:00+00:00')).toThrow('The disk is full.');
    expect(run.answered).toBe(0);
    expect(run.current).toBe(trials[0]);
  });

  it('takes no marker that is not on the figure', () => {
    const run = new PracticeRun(start, () => {});
    expect(() => run.answer([{ marker: '__proto__', way: 'up', mm: 5 }], '')).toThrow('is not on this figure');
  });
});
