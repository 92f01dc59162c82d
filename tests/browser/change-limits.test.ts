import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { areLabsOwn, labsOwn, withLimits } from '../../src/browser/change-limits.ts';
import { writeC3d } from '../../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../../src/core/check-trial.ts';
import { emptySession } from '../../src/core/session/session.ts';
import { placedByHand } from '../support/ordinary-people.ts';
import { wands22 } from '../support/shipped-marker-sets.ts';
import { stillContents } from '../support/still-trial.ts';

const bytes = writeC3d(stillContents(placedByHand(3)));
const rulesWith = (shares: Parameters<typeof withLimits>[1]) =>
  checkTrial(bytes, withLimits(wands22, shares), emptySession, { path: '', sha256: '' }, null).rules;
const widthOf = ({ range, limit }: ReturnType<typeof rulesWith>[number]) =>
  limit ?? (range?.[0] ?? 0) * -1 + (range?.[1] ?? 0);

describe('withLimits', () => {
  it('leaves the set as it is at one', () => {
    expect(withLimits(wands22, labsOwn)).toEqual(wands22);
    expect(areLabsOwn(labsOwn)).toBe(true);
    expect(areLabsOwn({ all: 1, rules: { 'heel-level.left': 1 } })).toBe(true);
    expect(areLabsOwn({ all: 1, rules: { 'heel-level.left': 1.05 } })).toBe(false);
  });

  it('makes a limit in mm, in degrees and a range as much wider as it says', () => {
    const doubled = rulesWith({ all: 2, rules: {} });
    const own = rulesWith(labsOwn);
    const limitOf = (rules: typeof own, id: string) => rules.find((rule) => rule.id === id)!.limit!;
    expect(limitOf(own, 'heel-level.left')).toBe(8);
    expect(limitOf(doubled, 'heel-level.left')).toBe(16);
    expect(limitOf(doubled, 'fibular-head-below.left')).toBeCloseTo(2 * limitOf(own, 'fibular-head-below.left'), 9);
    // Five degrees become ten; the value is a distance at the wand's tip.
    const ratio = limitOf(doubled, 'thigh-wand-in-line.left') / limitOf(own, 'thigh-wand-in-line.left');
    expect(ratio).toBeGreaterThan(1.9);
    expect(ratio).toBeLessThan(2.1);
    expect(doubled.find(({ id }) => id === 'thigh-wand-stands-off.left')!.range).toEqual([0, null]);
  });

  it('changes one rule alone where asked', () => {
    const rules = rulesWith({ all: 1, rules: { 'heel-level.left': 0.5 } });
    const own = rulesWith(labsOwn);
    expect(rules.filter((rule, i) => widthOf(rule) !== widthOf(own[i]!)).map(({ id }) => id)).toEqual([
      'heel-level.left',
    ]);
  });

  it('never fails more rules for wider limits', () => {
    const failing = (all: number) => rulesWith({ all, rules: {} }).filter(({ status }) => status === 'fail').length;
    fc.assert(
      fc.property(
        fc.double({ min: 0.25, max: 3, noNaN: true }),
        fc.double({ min: 1, max: 2, noNaN: true }),
        (all, times) => {
          expect(failing(all * times)).toBeLessThanOrEqual(failing(all));
        },
      ),
      { numRuns: 40 },
    );
    expect(failing(0.25)).toBeGreaterThan(0);
  });
});
