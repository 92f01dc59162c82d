import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PairLevel, pairLevel } from '../../../src/core/rule-kinds/pair-level.ts';
import { keepsTheContract, measure, mirrored, nearby, type Place, shifted } from './rule-kind-contract.ts';

const rule: PairLevel = {
  kind: 'pair-level',
  unit: 'mm',
  side: 'both',
  borderline: 9,
  right: 'R_ASIS',
  left: 'L_ASIS',
  allowed: { target: 5, limit: 26 },
};
const place: Place = { points: { R_ASIS: [3, -118, 951.5], L_ASIS: [-4, 121, 940.25] } };

keepsTheContract(pairLevel, rule, place);

describe('pair-level', () => {
  it('says how much higher the right point lies', () => {
    const { value, residual, bounds } = measure(pairLevel, rule, place);
    expect(value).toBe(11.25);
    expect(residual).toBe(6.25);
    expect(bounds).toEqual({ reference: 5, low: -21, high: 31, borderline: 9 });
  });

  it('changes its sign in the mirror', () => {
    expect(measure(pairLevel, rule, mirrored(place)).value).toBe(-11.25);
  });

  it('follows heights and nothing else', () => {
    fc.assert(
      fc.property(nearby, nearby, nearby, (forward, left, up) => {
        const moved = shifted(place, 'R_ASIS', [forward, left, up]);
        expect(measure(pairLevel, rule, moved).value).toBeCloseTo(11.25 + up, 9);
      }),
    );
  });

  it('means something also on one spot: level', () => {
    expect(measure(pairLevel, rule, { points: { R_ASIS: [1, 2, 3], L_ASIS: [1, 2, 3] } }).value).toBe(0);
  });

  it('draws the line between them and the level through the left one', () => {
    expect(measure(pairLevel, rule, place).geometry.lines).toEqual([
      { from: [3, -118, 951.5], to: [-4, 121, 940.25] },
      { from: [3, -118, 940.25], to: [-4, 121, 940.25] },
    ]);
  });
});
