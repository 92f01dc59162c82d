import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LineParallelToFloor, lineParallelToFloor } from '../../../src/core/rule-kinds/line-parallel-to-floor.ts';
import { keepsTheContract, measure, mirrored, nearby, type Place, shifted } from './rule-kind-contract.ts';

const rule: LineParallelToFloor = {
  kind: 'line-parallel-to-floor',
  unit: 'mm',
  side: 'right',
  borderline: 3,
  from: 'R_HEEL',
  to: 'R_MET5',
  allowed: { target: 2, limit: 8 },
};
/** Heel 11 mm below the forefoot marker, 120 mm behind and 50 mm inside it: 130 mm seen from above. */
const place: Place = { points: { R_HEEL: [-60, -90, 31], R_MET5: [60, -140, 42] } };

keepsTheContract(lineParallelToFloor, rule, place);

describe('line-parallel-to-floor', () => {
  it('says how much higher the first point lies than the second, in mm', () => {
    const { value, residual, bounds } = measure(lineParallelToFloor, rule, place);
    expect(value).toBe(-11);
    expect(residual).toBe(-13);
    expect(bounds).toEqual({ reference: 2, low: -6, high: 10, borderline: 3 });
  });

  it('says it as a slope in degrees, over the run seen from above', () => {
    const { value } = measure(lineParallelToFloor, { ...rule, unit: 'deg' }, place);
    expect(value).toBeCloseTo((Math.atan(-11 / 130) * 180) / Math.PI, 9);
  });

  it('is positive when the first point is higher, on either side', () => {
    const raised = shifted(place, 'R_HEEL', [0, 0, 20]);
    expect(measure(lineParallelToFloor, rule, raised).value).toBe(9);
    const left = { ...rule, side: 'left', from: 'L_HEEL', to: 'L_MET5' } as const;
    expect(measure(lineParallelToFloor, left, mirrored(raised)).value).toBe(9);
  });

  it.each(['mm', 'deg'] as const)('changes in %s with heights only, whichever way the line points', (unit) => {
    fc.assert(
      fc.property(fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }), nearby, (turn, rise) => {
        const turned: Place = {
          points: {
            R_HEEL: [-60, -90, 42 + rise],
            R_MET5: [-60 + 130 * Math.cos(turn), -90 + 130 * Math.sin(turn), 42],
          },
        };
        const expected = unit === 'mm' ? rise : (Math.atan(rise / 130) * 180) / Math.PI;
        expect(measure(lineParallelToFloor, { ...rule, unit }, turned).value).toBeCloseTo(expected, 9);
      }),
    );
  });

  it('has no slope where both points lie on one spot', () => {
    const spot: Place = { points: { R_HEEL: [5, 5, 5], R_MET5: [5, 5, 5] } };
    expect(measure(lineParallelToFloor, { ...rule, unit: 'deg' }, spot).value).toBeNaN();
    expect(measure(lineParallelToFloor, rule, spot).value).toBe(0);
  });

  it('draws the line and the level through its second point', () => {
    const { geometry } = measure(lineParallelToFloor, rule, place);
    expect(geometry.lines).toEqual([
      { from: [-60, -90, 31], to: [60, -140, 42] },
      { from: [-60, -90, 42], to: [60, -140, 42] },
    ]);
  });
});
