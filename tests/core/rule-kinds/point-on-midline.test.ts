import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PointOnMidline, pointOnMidline } from '../../../src/core/rule-kinds/point-on-midline.ts';
import { keepsTheContract, measure, mirrored, nearby, type Place, shifted } from './rule-kind-contract.ts';

const rule: PointOnMidline = {
  kind: 'point-on-midline',
  unit: 'mm',
  side: 'midline',
  borderline: 6,
  point: 'S1',
  right: 'R_ASIS',
  left: 'L_ASIS',
  allowed: { target: 0, limit: 17 },
};
const place: Place = { points: { S1: [-160, 9, 985], R_ASIS: [0, -120, 950], L_ASIS: [0, 124, 944] } };

keepsTheContract(pointOnMidline, rule, place);

describe('point-on-midline', () => {
  it('says how far the point lies to the left of the middle', () => {
    const { value, residual } = measure(pointOnMidline, rule, place);
    expect(value).toBeCloseTo(7, 12);
    expect(residual).toBeCloseTo(7, 12);
  });

  it('takes the way to the left as the pair has it, seen from above', () => {
    // Left point 70 ahead of the right one over 240: the unit vector to the left is (0.28, 0.96).
    const turned: Place = { points: { S1: [-150, 10, 990], R_ASIS: [-35, -120, 950], L_ASIS: [35, 120, 950] } };
    expect(measure(pointOnMidline, rule, turned).value).toBeCloseTo(-150 * 0.28 + 10 * 0.96, 9);
  });

  it('changes its sign in the mirror', () => {
    expect(measure(pointOnMidline, rule, mirrored(place)).value).toBeCloseTo(-7, 9);
  });

  it('changes by d when the point moves d to the left, and not with heights or forward', () => {
    fc.assert(
      fc.property(nearby, nearby, nearby, (forward, d, up) => {
        expect(measure(pointOnMidline, rule, shifted(place, 'S1', [forward, d, up])).value).toBeCloseTo(7 + d, 9);
      }),
    );
  });

  it('changes by half of what one of the pair moves sideways, the other way', () => {
    expect(measure(pointOnMidline, rule, shifted(place, 'L_ASIS', [0, 10, 0])).value).toBeCloseTo(2, 9);
  });

  it('says NaN where the pair lies one above the other', () => {
    const upright: Place = { points: { ...place.points, R_ASIS: [0, 0, 950], L_ASIS: [0, 0, 990] } };
    expect(measure(pointOnMidline, rule, upright).value).toBeNaN();
  });

  it('draws the pair and the plane between them, seen from behind', () => {
    const { lines, planes } = measure(pointOnMidline, rule, place).geometry;
    expect(lines).toEqual([{ from: [0, -120, 950], to: [0, 124, 944] }]);
    expect(planes).toEqual([{ at: [0, 2, 947], along: [0, 0, 1], view: [1, 0, 0] }]);
  });
});
