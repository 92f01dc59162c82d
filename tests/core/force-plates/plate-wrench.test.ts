import { describe, expect, it } from 'vitest';
import type { ForcePlate, PlateType } from '../../../src/core/force-plates/plate.ts';
import { plateWrench } from '../../../src/core/force-plates/plate-wrench.ts';
import type { Vec3 } from '../../../src/core/geometry/vector.ts';

function plate(type: PlateType, origin: Vec3, calibration: readonly number[] | null = null): ForcePlate {
  const corners: ForcePlate['corners'] = [
    [1, 1, 0],
    [-1, 1, 0],
    [-1, -1, 0],
    [1, -1, 0],
  ];
  return { number: 1, type, channels: [], corners, origin, calibration };
}

/**
 * What the channels of each type are, and what ORIGIN means, is defined in the C3D user guide (c3d.org:
 * forceplatformtype, type24, type31, forceplatformcalmatrix); the figures here are worked out by hand from that.
 * The z axis of a plate points into the floor, so that a plate that carries somebody reads a negative force.
 */
describe('force and centre of pressure by the published type definitions', () => {
  it('type 2: a moment is the lever times the force, about an origin 40 mm under the surface', () => {
    // 800 N up through x = 50, y = -30 from the middle, and 20 N along x at the surface, 40 mm above the origin:
    // Mx = y Fz = -30 * -800; My = z Fx - x Fz = -40 * 20 + 50 * 800.
    const { force, centre } = plateWrench(plate(2, [0, 0, -40]), [20, 0, -800, 24000, 39200, 0], 1);
    expect(force).toEqual([20, 0, -800]);
    expect(centre).toEqual([50, -30]);
  });

  it('type 2: ORIGIN leads to the middle of the surface, so that its x and y are taken off', () => {
    const { centre } = plateWrench(plate(2, [2, 5, -40]), [0, 0, -800, 24000, 40000, 0], 1);
    expect(centre).toEqual([48, -35]);
  });

  it('types 2 and 3: an origin whose depth is stored as a positive number is under the surface all the same', () => {
    const six = [20, -7, -800, 24000, 39200, 0];
    expect(plateWrench(plate(2, [0, 0, 40]), six, 1)).toEqual(plateWrench(plate(2, [0, 0, -40]), six, 1));
    const eight = [3, 4, 5, 6, -100, -200, -300, -400];
    expect(plateWrench(plate(3, [120, 200, 54]), eight, 1)).toEqual(plateWrench(plate(3, [120, 200, -54]), eight, 1));
  });

  it('type 2: moments in Nm where positions are in mm', () => {
    const { centre } = plateWrench(plate(2, [0, 0, -40]), [0, 0, -800, 24, 40, 0], 1000);
    expect(centre).toEqual([50, -30]);
  });

  it('type 3: each sensor lies in the quadrant of the corner of its number', () => {
    const origin: Vec3 = [120, 200, -54];
    // All of it on one sensor: there is the centre of pressure.
    expect(plateWrench(plate(3, origin), [0, 0, 0, 0, -500, 0, 0, 0], 1).centre).toEqual([120, 200]);
    expect(plateWrench(plate(3, origin), [0, 0, 0, 0, 0, -500, 0, 0], 1).centre).toEqual([-120, 200]);
    expect(plateWrench(plate(3, origin), [0, 0, 0, 0, 0, 0, -500, 0], 1).centre).toEqual([-120, -200]);
    expect(plateWrench(plate(3, origin), [0, 0, 0, 0, 0, 0, 0, -500], 1).centre).toEqual([120, -200]);
    // A force along x at the surface, 54 mm above the sensors, tips 54 * 100 Nmm onto them.
    const tipped = plateWrench(plate(3, origin), [60, 40, 0, 0, -125, -125, -125, -125], 1);
    expect(tipped.force).toEqual([100, 0, -500]);
    expect(tipped.centre![0]).toBeCloseTo(10.8, 10);
  });

  it('type 4: the matrix is stored column after column and multiplies the column of channels', () => {
    // First column all zero but its third number: channel 1 adds to the third force only.
    const matrix: number[] = Array.from({ length: 36 }, (_, at) => (at % 7 === 0 ? 1 : 0));
    matrix[2] = 0.5;
    const { force } = plateWrench(plate(4, [0, 0, -40], matrix), [10, 0, -800, 0, 0, 0], 1);
    expect(force).toEqual([10, 0, -795]);
  });

  it('type 1: the place is stored', () => {
    const { force, centre } = plateWrench(plate(1, [0, 0, 0]), [1, 2, -700, 12, -34, 0], 1);
    expect(force).toEqual([1, 2, -700]);
    expect(centre).toEqual([12, -34]);
  });

  it('nothing that presses has no place', () => {
    for (const type of [1, 2, 3] as const) {
      expect(plateWrench(plate(type, [0, 0, -40]), [0, 0, 0, 0, 0, 0, 0, 0], 1).centre).toBeNull();
    }
  });
});
