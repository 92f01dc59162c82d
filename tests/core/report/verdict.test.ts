import { describe, expect, it } from 'vitest';
import { coverageOf, verdictOf } from '../../../src/core/report/verdict.ts';
import type { RuleOutcome } from '../../../src/core/rules/assess-rules.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

/** A hundred rules of which so many could be judged, and passed. */
function outcomes(assessed: number): RuleOutcome[] {
  const rule = { ...wands22.rules[0]!, essential: false };
  return Array.from({ length: 100 }, (_, index) =>
    index < assessed
      ? ({ rule, status: 'pass' } as unknown as RuleOutcome)
      : { rule, status: 'not-assessed', reason: 'not seen' },
  );
}

function verdict(assessed: number) {
  const all = outcomes(assessed);
  return verdictOf(
    coverageOf(all, wands22, () => true),
    all,
    [],
    [],
  );
}

describe('under 60 % of the rules assessed', () => {
  it('nothing can be said of the trial, and from there on it can', () => {
    expect(verdict(59)).toBe('not-assessable');
    expect(verdict(60)).toBe('ready');
  });
});

describe('what no rule sees', () => {
  it('is told only of markers that are on', () => {
    const about = (seen: (label: string) => boolean) => coverageOf(outcomes(60), wands22, seen).unseen.length;
    expect(about(() => true)).toBe(wands22.unseen.length);
    expect(about((label) => label !== 'S1')).toBe(wands22.unseen.length - 1);
  });
});
