import { describe, expect, it } from 'vitest';
import { dot, type Vec3 } from '../../../src/core/geometry/vector.ts';
import { pelvisFrame } from '../../../src/core/pose/pelvis-frame.ts';

describe('pelvisFrame', () => {
  // Enderle and Bronzino, Introduction to Biomedical Engineering, chapter 4, examples 4.10 to 4.12: marker coordinates in
  // metres, unit vectors printed to three decimals (their minus signs are lost in the web text and restored here).
  const rightAsis: Vec3 = [-0.85, -0.802, 0.652];
  const leftAsis: Vec3 = [-0.831, -0.651, 0.652];
  const psis: Vec3 = [-1.015, -0.704, 0.686];

  it('has the axes of the published example', () => {
    const frame = pelvisFrame(rightAsis, leftAsis, psis)!;
    const printed = { forward: [0.974, -0.123, -0.19], left: [0.125, 0.992, 0], up: [0.188, -0.024, 0.982] };
    for (const axis of ['forward', 'left', 'up'] as const) {
      frame[axis].forEach((component, index) => {
        // The book rounds on the way, so the third decimal may be off by one.
        expect(Math.abs(component - printed[axis][index]!)).toBeLessThan(0.0016);
      });
    }
  });

  it('gives the pelvic angles of the published example: 11 degrees of tilt, 1 of obliquity, 7 of rotation', () => {
    const { forward, left } = pelvisFrame(rightAsis, leftAsis, psis)!;
    const degrees = 180 / Math.PI;
    expect(Math.round(Math.asin(-forward[2]) * degrees)).toBe(11);
    expect(Math.round(Math.atan2(-forward[1], forward[0]) * degrees)).toBe(7);
    // The example's obliquity of 1 degree comes from z; the line of the ASIS itself is level.
    expect(Math.abs(left[2])).toBeLessThan(1e-12);
  });

  it('is right-handed and square', () => {
    const { forward, left, up } = pelvisFrame([3, -4, 9], [1, 20, 13], [-15, 6, 14])!;
    expect(dot(forward, left)).toBeCloseTo(0, 12);
    expect(dot(left, up)).toBeCloseTo(0, 12);
    expect(
      forward[0] * (left[1] * up[2] - left[2] * up[1]) +
        forward[1] * (left[2] * up[0] - left[0] * up[2]) +
        forward[2] * (left[0] * up[1] - left[1] * up[0]),
    ).toBeCloseTo(1, 12);
  });

  it('is not there where the points lie in one line or coincide', () => {
    expect(pelvisFrame([0, 0, 0], [0, 1, 0], [0, 5, 0])).toBeNull();
    expect(pelvisFrame([1, 1, 1], [1, 1, 1], [0, 5, 0])).toBeNull();
  });
});
