import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LengthsAlike, lengthsAlike } from '../../../src/core/rule-kinds/lengths-alike.ts';
import { keepsTheContract, measure, mirrored, type Place, shifted } from './rule-kind-contract.ts';

const rule: LengthsAlike = {
  kind: 'lengths-alike',
  unit: 'mm',
  side: 'both',
  borderline: 13,
  right: { from: 'R_LE', to: 'R_LM' },
  left: { from: 'L_LE', to: 'L_LM' },
  allowed: { target: -4, limit: 39 },
};
/** Box diagonals: 20, 40, 400 is 402.4922359499622; 10, 20, 380 is 380.6573262134856. */
const place: Place = {
  points: { R_LE: [0, -150, 480], R_LM: [-20, -110, 80], L_LE: [0, 140, 470], L_LM: [10, 120, 90] },
};
const right = Math.sqrt(20 ** 2 + 40 ** 2 + 400 ** 2);
const left = Math.sqrt(10 ** 2 + 20 ** 2 + 380 ** 2);

keepsTheContract(lengthsAlike, rule, place);

describe('lengths-alike', () => {
  it('says right minus left', () => {
    const { value, residual, bounds } = measure(lengthsAlike, rule, place);
    expect(value).toBeCloseTo(right - left, 9);
    expect(residual).toBeCloseTo(right - left + 4, 9);
    expect(bounds).toEqual({ reference: -4, low: -43, high: 35, borderline: 13 });
  });

  it('changes its sign in the mirror', () => {
    expect(measure(lengthsAlike, rule, mirrored(place)).value).toBeCloseTo(left - right, 9);
  });

  it('grows by as much as an end moves along its own line', () => {
    fc.assert(
      fc.property(fc.double({ min: -300, max: 300, noNaN: true }), (d) => {
        const along = shifted(place, 'R_LE', [(20 / right) * d, (-40 / right) * d, (400 / right) * d]);
        expect(measure(lengthsAlike, rule, along).value).toBeCloseTo(right - left + d, 9);
      }),
    );
  });

  it('counts points on one spot as a length of nothing', () => {
    const spot: Place = { points: { ...place.points, R_LM: [0, -150, 480] } };
    expect(measure(lengthsAlike, rule, spot).value).toBeCloseTo(-left, 9);
  });

  it('draws both lengths', () => {
    expect(measure(lengthsAlike, rule, place).geometry.lines).toEqual([
      { from: [0, -150, 480], to: [-20, -110, 80] },
      { from: [0, 140, 470], to: [10, 120, 90] },
    ]);
  });
});
