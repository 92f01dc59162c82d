import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { angleDeg, at, outwardSign } from '../../../src/core/rule-kinds/positions.ts';

describe('positions', () => {
  it('reads three numbers at an offset', () => {
    expect(at(Float64Array.of(9, 1, 2, 3, 9), 1)).toEqual([1, 2, 3]);
  });

  it('has right outward to the right, and left, both and midline to the left', () => {
    expect(['right', 'left', 'both', 'midline'].map((side) => outwardSign(side as 'both'))).toEqual([-1, 1, 1, 1]);
  });

  it('gives the angle of a vector, and none to a vector without length', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -179.9, max: 180, noNaN: true }),
        fc.double({ min: 0.001, max: 5000, noNaN: true }),
        (angle, size) => {
          const turn = (angle * Math.PI) / 180;
          expect(angleDeg(size * Math.sin(turn), size * Math.cos(turn))).toBeCloseTo(angle, 9);
        },
      ),
    );
    expect(angleDeg(0, 0)).toBeNaN();
    expect(angleDeg(-0, 0)).toBeNaN();
  });
});
