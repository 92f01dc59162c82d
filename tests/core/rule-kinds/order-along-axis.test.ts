import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type OrderAlongAxis, orderAlongAxis } from '../../../src/core/rule-kinds/order-along-axis.ts';
import { keepsTheContract, measure, mirrored, nearby, type Place, shifted } from './rule-kind-contract.ts';

const rule: OrderAlongAxis = {
  kind: 'order-along-axis',
  unit: 'mm',
  side: 'right',
  borderline: 6,
  first: 'R_LE',
  second: 'R_HF',
  axis: 'up',
  segment: null,
  allowed: { range: [5, 70] },
};
const place: Place = {
  points: { R_LE: [4, -150, 480], R_HF: [-11, -142, 448] },
  axes: { 'shank/up': [0.6, 0, 0.8], 'shank/outward': [0, -1, 0] },
};

keepsTheContract(orderAlongAxis, rule, place);
keepsTheContract(orderAlongAxis, { ...rule, segment: 'shank' }, place);

describe('order-along-axis', () => {
  it.each([
    ['up', 32],
    ['forward', 15],
    ['outward', 8],
  ] as const)('says how far the first lies beyond the second along the body: %s', (axis, expected) => {
    const { value, residual } = measure(orderAlongAxis, { ...rule, axis }, place);
    expect(value).toBeCloseTo(expected, 12);
    expect(residual).toBeCloseTo(expected - 37.5, 12);
  });

  it("goes along the segment's own axis where one is named", () => {
    expect(measure(orderAlongAxis, { ...rule, segment: 'shank' }, place).value).toBeCloseTo(0.6 * 15 + 0.8 * 32, 12);
  });

  it('means away from the midline by outward, on either side', () => {
    const left: OrderAlongAxis = { ...rule, side: 'left', first: 'L_LE', second: 'L_HF', axis: 'outward' };
    expect(measure(orderAlongAxis, left, mirrored(place)).value).toBeCloseTo(8, 12);
  });

  it('is the other way round with the points exchanged', () => {
    const back = measure(orderAlongAxis, { ...rule, first: 'R_HF', second: 'R_LE' }, place);
    expect(back.value).toBeCloseTo(-32, 12);
  });

  it('changes by d when the first point moves d along the axis, and by nothing across it', () => {
    fc.assert(
      fc.property(nearby, nearby, (d, across) => {
        const moved = shifted(place, 'R_LE', [0.6 * d - 0.8 * across, across, 0.8 * d + 0.6 * across]);
        expect(measure(orderAlongAxis, { ...rule, segment: 'shank' }, moved).value).toBeCloseTo(34.6 + d, 9);
      }),
    );
  });

  it('takes the only end of an open range as what residuals are measured from', () => {
    const { bounds, residual } = measure(orderAlongAxis, { ...rule, allowed: { range: [15, null] } }, place);
    expect(bounds).toEqual({ reference: 15, low: 15, high: Number.POSITIVE_INFINITY, borderline: 6 });
    expect(residual).toBeCloseTo(17, 12);
  });

  it('says NaN where the segment has no axis', () => {
    const broken: Place = { ...place, axes: { 'shank/up': [Number.NaN, Number.NaN, Number.NaN] } };
    expect(measure(orderAlongAxis, { ...rule, segment: 'shank' }, broken).value).toBeNaN();
  });
});
