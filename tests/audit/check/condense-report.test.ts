import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { condenseReport } from '../../../src/audit/check/condense-report.ts';
import { checkTrial } from '../../../src/core/check-trial.ts';
import { bodyHeightMm } from '../../../src/core/pose/body-height.ts';
import { ruleKinds } from '../../../src/core/rule-kinds/all-rule-kinds.ts';
import { assessRules, isAssessed } from '../../../src/core/rules/assess-rules.ts';
import { expectedRules } from '../../../src/core/rules/expected-rules.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { standTrial } from '../../../src/core/stand-trial.ts';
import { wands22 as set } from '../../support/shipped-marker-sets.ts';

function condensed(name: string) {
  const bytes = readFileSync(new URL(`../../../sample-trials/${name}`, import.meta.url));
  const stood = standTrial(bytes, set, emptySession, null);
  if (!('body' in stood)) throw new Error('nobody stands');
  const report = checkTrial(bytes, set, emptySession, { path: name, sha256: '' });
  return { ...condenseReport(report, set), body: stood.body };
}

describe('what an audit keeps of a report', () => {
  it('has every residual as the norms have it, and the height that they scale with', () => {
    const { checks, body, bodyHeightMm: height } = condensed('adult-well-placed.c3d');
    const outcomes = assessRules(body, expectedRules(set, emptySession), emptySession);
    let compared = 0;
    outcomes.forEach((outcome, index) => {
      const residual = checks[index]![5];
      if (!isAssessed(outcome)) return expect(residual).toBeNull();
      compared += 1;
      expect(residual, outcome.rule.id).toBeCloseTo(
        ruleKinds[outcome.rule.kind].residual(body.positions, outcome.parameters),
        2,
      );
    });
    expect(compared).toBeGreaterThan(45);
    expect(height).toBeCloseTo(bodyHeightMm(body), 2);
  });

  it('has no residual along a direction that no marker gave', () => {
    const { checks } = condensed('knee-direction-unknown.c3d');
    const of = (id: string) => checks[set.rules.findIndex((rule) => rule.id === id)]!;
    expect(of('thigh-wand-in-line.right')[1]).not.toBeNull();
    expect(of('thigh-wand-in-line.right')[5]).toBeNull();
    expect(of('heel-level.right')[5]).toBe(of('heel-level.right')[1]);
  });
});
