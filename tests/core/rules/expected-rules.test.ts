import { describe, expect, it } from 'vitest';
import { expectedRules, ruleStem, sideOf } from '../../../src/core/rules/expected-rules.ts';
import { emptySession, type PatientFacts, type Session } from '../../../src/core/session/session.ts';
import { allowedOf, recording, ruleOf, shippedSet } from './stand-person.ts';

const set = shippedSet();

function expected(id: string, session: Session) {
  return expectedRules(set, session).find(({ rule }) => rule.id === id)!;
}

const suspended = (id: string, facts: Partial<PatientFacts>) => expected(id, recording(facts)).suspended;
const allowed = (id: string, facts: Partial<PatientFacts>) => allowedOf(expected(id, recording(facts)).rule);

describe('expectedRules', () => {
  it('leaves every rule as written where nothing was recorded', () => {
    const rules = expectedRules(set, emptySession);
    expect(rules).toHaveLength(set.rules.length);
    for (const [index, { rule, suspended }] of rules.entries()) {
      expect(suspended).toBeNull();
      expect(rule).toBe(set.rules[index]);
    }
  });

  it('does not change the marker set', () => {
    const before = JSON.stringify(set.rules);
    expectedRules(set, recording({ legLengthDifferenceMm: 20, variants: [{ id: 'foot-in-supination', side: null }] }));
    expect(JSON.stringify(set.rules)).toBe(before);
  });
});

describe('suspended by a recorded fact', () => {
  it('on the recorded side only', () => {
    const contractures = [{ joint: 'knee' as const, side: 'right' as const, angleDeg: 15 }];
    expect(suspended('fibular-head-behind.right', { contractures })).toBe('recorded: contracture of the knee');
    expect(suspended('fibular-head-behind.left', { contractures })).toBeNull();
  });

  it('on either side for a rule that compares both', () => {
    const contractures = [{ joint: 'knee' as const, side: 'left' as const, angleDeg: 15 }];
    expect(suspended('asis-level', { contractures })).toBe('recorded: contracture of the knee');
  });

  it('only by the facts that the rule names', () => {
    expect(suspended('acromia-level', { cannotStandStraight: true })).toBe('recorded: cannot stand straight');
    expect(suspended('acromia-level', { supported: true })).toBeNull();
    expect(suspended('asis-level', { prosthesis: ['left'] })).toBe('recorded: prosthesis');
  });
});

describe('suspended by a variant', () => {
  const onRight = [{ id: 'foot-in-supination', side: 'right' as const }];
  const onBoth = [...onRight, { id: 'foot-in-supination', side: 'left' as const }];

  it('"recorded": on its own side', () => {
    expect(suspended('ankle-above-forefoot.right', { variants: onRight })).toBe('recorded: foot in supination');
    expect(suspended('ankle-above-forefoot.left', { variants: onRight })).toBeNull();
    expect(suspended('ankle-above-forefoot.left', { variants: onBoth })).toBe('recorded: foot in supination');
  });

  it('"one-side": a comparison of both sides, while only one of them has it', () => {
    expect(suspended('heels-alike', { variants: onRight })).toBe('recorded: foot in supination');
    expect(suspended('heels-alike', { variants: onBoth })).toBeNull();
    expect(suspended('heels-alike', { variants: [{ id: 'foot-in-supination', side: null }] })).toBeNull();
  });

  it('"unless": while the number that would take its place is not recorded for that side', () => {
    const variants = [{ id: 'heel-off-floor', side: 'right' as const }];
    expect(suspended('heel-level.right', { variants })).toBe('recorded: heel off the floor');
    expect(suspended('heel-level.right', { variants, heelRaiseMm: { right: 30, left: null } })).toBeNull();
    expect(suspended('heel-level.right', { variants, heelRaiseMm: { right: null, left: 30 } })).not.toBeNull();
  });

  it('not by a variant that the set does not know', () => {
    const rules = expectedRules(set, recording({ variants: [{ id: '__proto__', side: null }] }));
    expect(rules.every(({ suspended }) => suspended === null)).toBe(true);
  });
});

describe('another range for a variant', () => {
  it('on its own side, with its own band', () => {
    const session = recording({ variants: [{ id: 'foot-in-supination', side: 'left' }] });
    expect(allowedOf(expected('foot-turned-out.left', session).rule)).toEqual({ range: [-31, 53] });
    expect(expected('foot-turned-out.left', session).rule.borderline).toBe(14);
    expect(allowedOf(expected('foot-turned-out.right', session).rule)).toEqual({ range: [-19, 77] });
  });

  it('on both sides when recorded without a side', () => {
    const variants = [{ id: 'heel-off-floor', side: null }];
    for (const side of ['right', 'left']) {
      expect(allowed(`ankle-above-forefoot.${side}`, { variants })).toEqual({ range: [6, 180] });
    }
  });
});

describe('shifted by a recorded number', () => {
  it('by the leg length difference, right minus left, wholly or in part, and wider', () => {
    expect(allowedOf(ruleOf(set, 'asis-level'))).toEqual({ target: 0, limit: 31 });
    expect(allowed('asis-level', { legLengthDifferenceMm: 16 })).toEqual({ target: 16, limit: 35 });
    expect(allowed('asis-level', { legLengthDifferenceMm: -16 })).toEqual({ target: -16, limit: 35 });
    // The knee takes half of the difference, since nobody knows whether thigh or shank is short.
    expect(allowed('knees-level', { legLengthDifferenceMm: 16 })).toEqual({ target: 8, limit: 35 });
    // A pelvis that rolls takes the sacral marker to the side of the short leg.
    expect(allowed('sacral-on-midline', { legLengthDifferenceMm: 20 })).toEqual({ target: 4, limit: 22 });
    expect(allowed('shanks-alike', { legLengthDifferenceMm: -10 })).toEqual({ target: -5, limit: 44 });
  });

  it('by the heel raise of its own side', () => {
    const heelRaiseMm = { right: 25, left: null };
    expect(allowed('heel-level.right', { heelRaiseMm })).toEqual({ target: 25, limit: 13 });
    expect(allowed('heel-level.left', { heelRaiseMm })).toEqual({ target: 0, limit: 8 });
  });

  it('by several numbers at once', () => {
    const facts = { heelRaiseMm: { right: 10, left: null }, heelSoleDifferenceMm: { right: 15, left: null } };
    expect(allowed('heel-level.right', facts)).toEqual({ target: 25, limit: 13 });
  });

  it('both ends of a range, and leaves an open end open', () => {
    const shiftedBy = [{ fact: 'heelRaiseMm' as const, factor: 1, widen: 0.5 }];
    const facts = recording({ heelRaiseMm: { right: 10, left: null } });
    const shifted = (range: [number | null, number | null]) => {
      const rule = { ...ruleOf(set, 'ankle-above-forefoot.right'), allowed: { range }, shiftedBy };
      return allowedOf(expectedRules({ ...set, rules: [rule as never] }, facts)[0]!.rule);
    };
    expect(shifted([6, 85])).toEqual({ range: [11, 100] });
    expect(shifted([6, null])).toEqual({ range: [11, null] });
    expect(shifted([null, 85])).toEqual({ range: [null, 100] });
  });
});

describe('names', () => {
  it.each([
    ['thigh-wand-in-line.right', 'right', 'thigh-wand-in-line', 'right'],
    ['thigh-wand-in-line.left', 'left', 'thigh-wand-in-line', 'left'],
    ['asis-level', 'both', 'asis-level', null],
    ['sacral-square', 'midline', 'sacral-square', null],
  ])('%s on the side %s', (id, side, stem, known) => {
    expect(ruleStem({ id, side })).toBe(stem);
    expect(sideOf({ side })).toBe(known);
  });
});
