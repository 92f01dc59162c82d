import { describe, expect, it } from 'vitest';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { isSameBody, spacingChangeMm } from '../../../src/core/captures/same-body.ts';
import { placedByHand } from '../../support/ordinary-people.ts';
import { standsAgain } from '../../support/stand-again.ts';
import { checkPositions } from '../../support/still-trial.ts';
import { buildReport } from '../report/build-report.ts';

const people = Array.from({ length: 24 }, (_, index) => index + 1);

describe('the body of a capture', () => {
  it('is the same when the same person stands again, even with four markers moved by 30 mm', () => {
    for (const seed of people) {
      const before = checkPositions(standsAgain(seed, 0));
      let after = standsAgain(seed, 1);
      for (const label of ['R_GT', 'L_LE', 'R_TW', 'L_HEEL']) after = displace(after, label, { forward: 30 });
      expect(spacingChangeMm(before, checkPositions(after)), `person ${seed}`).toBeLessThan(2);
    }
  });

  it('is another one for most other people', () => {
    const reports = people.map((seed) => checkPositions(placedByHand(seed)));
    const told = reports.slice(1).map((report, index) => isSameBody(reports[index]!, report));
    expect(told.filter((same) => same === false).length).toBeGreaterThanOrEqual(20);
  });

  it('does not depend on where the person stands and faces', () => {
    const body = standsAgain(3, 0);
    const turned = checkPositions(body, { headingDeg: 200, standsAtMm: [900, -400, 0] });
    expect(spacingChangeMm(checkPositions(body), turned)).toBeLessThan(0.01);
  });

  it('is not judged by fewer than six markers', () => {
    expect(isSameBody(buildReport(), buildReport())).toBeNull();
  });
});
