import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../../src/core/geometry/vector.ts';
import { type DistanceInRange, distanceInRange } from '../../../src/core/rule-kinds/distance-in-range.ts';
import { keepsTheContract, measure, mirrored, type Place } from './rule-kind-contract.ts';

const rule: DistanceInRange = {
  kind: 'distance-in-range',
  unit: 'ratio',
  side: 'right',
  borderline: 0.05,
  from: 'R_GT',
  to: 'R_LE',
  per: { from: 'R_LE', to: 'R_LM' },
  allowed: { range: [0.78, 1.16] },
};
/** 12, 15, 416 is a length of 416.4...; the shank is 9, 12, 400 long, that is 400.28... */
const place: Place = {
  points: { R_GT: [-12, -165, 896], R_LE: [0, -150, 480], R_LM: [-9, -138, 80] },
  statureMm: 1720,
};
const thigh = Math.sqrt(12 ** 2 + 15 ** 2 + 416 ** 2);
const shank = Math.sqrt(9 ** 2 + 12 ** 2 + 400 ** 2);
const inMm: DistanceInRange = { ...rule, unit: 'mm', per: null, allowed: { target: 400, limit: 30 }, borderline: 5 };

keepsTheContract(distanceInRange, rule, place);
keepsTheContract(distanceInRange, inMm, place);

describe('distance-in-range', () => {
  it('says a distance in mm', () => {
    const { value, residual } = measure(distanceInRange, inMm, place);
    expect(value).toBeCloseTo(thigh, 9);
    expect(residual).toBeCloseTo(thigh - 400, 9);
  });

  it('says a distance as its ratio to another', () => {
    const { value, residual } = measure(distanceInRange, rule, place);
    expect(value).toBeCloseTo(thigh / shank, 12);
    expect(residual).toBeCloseTo(thigh / shank - 0.97, 12);
  });

  it('says a distance as its share of the measured stature', () => {
    expect(measure(distanceInRange, { ...rule, per: 'stature' }, place).value).toBeCloseTo(thigh / 1720, 12);
    expect(distanceInRange.needs({ ...rule, per: 'stature' }).stature).toBe(true);
    expect(distanceInRange.needs(rule).stature).toBe(false);
  });

  it('has no share of a stature that nobody measured', () => {
    const unmeasured: Place = { points: place.points };
    expect(measure(distanceInRange, { ...rule, per: 'stature' }, unmeasured).value).toBeNaN();
  });

  it('is the same in the mirror', () => {
    const left: DistanceInRange = {
      ...rule,
      side: 'left',
      from: 'L_GT',
      to: 'L_LE',
      per: { from: 'L_LE', to: 'L_LM' },
    };
    expect(measure(distanceInRange, left, mirrored(place)).value).toBeCloseTo(thigh / shank, 12);
  });

  it('does not change as a ratio when the whole body is larger', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 3, noNaN: true }), (factor) => {
        const grown = Object.fromEntries(
          Object.entries(place.points).map(([name, point]) => [name, point.map((part) => part * factor) as Vec3]),
        );
        expect(measure(distanceInRange, rule, { points: grown }).value).toBeCloseTo(thigh / shank, 9);
        expect(measure(distanceInRange, inMm, { points: grown }).value).toBeCloseTo(thigh * factor, 9);
      }),
    );
  });

  it('says NaN where the distance that it is divided by has no length', () => {
    const spot: Place = { points: { ...place.points, R_LM: [0, -150, 480] } };
    expect(measure(distanceInRange, rule, spot).value).toBeNaN();
    expect(measure(distanceInRange, rule, { points: { ...spot.points, R_GT: [0, -150, 480] } }).value).toBeNaN();
  });

  it('draws both distances, or the one', () => {
    expect(measure(distanceInRange, rule, place).geometry.lines).toHaveLength(2);
    expect(measure(distanceInRange, inMm, place).geometry.lines).toEqual([
      { from: [-12, -165, 896], to: [0, -150, 480] },
    ]);
  });
});
