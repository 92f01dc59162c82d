import { describe, expect, it } from 'vitest';
import type { JointAngle } from '../../../src/core/gait-model/standing-angles.ts';
import { anglesWithCaution } from '../../../src/core/reader-note/angles-with-caution.ts';

const angle = (joint: JointAngle['joint'], motion: string, side: JointAngle['side'], deg: number): JointAngle => ({
  joint,
  motion,
  side,
  deg,
});

function caution(angles: readonly JointAngle[], varusDeg?: number, loose = 0): string {
  const crossTalk = varusDeg === undefined ? [] : [{ side: 'right' as const, atFlexionDeg: 60, varusDeg }];
  return anglesWithCaution({ angles, crossTalk, largestDeg: 0, band: 'under-2', estimated: [], says: '' }, loose);
}

describe('angles to read with caution', () => {
  it('are those from 2 degrees on, the largest first, whatever their sign', () => {
    const angles = [
      angle('knee', 'rotation', 'right', 2),
      angle('hip', 'rotation', 'right', -6.4),
      angle('knee', 'flexion', 'right', 1.99),
    ];
    expect(caution(angles)).toBe('right hip rotation (about 6 degrees) and right knee rotation (about 2 degrees)');
  });

  it('have cross-talk of the bent knee among them', () => {
    expect(caution([angle('hip', 'rotation', 'right', 3)], -5)).toBe(
      'right knee varus-valgus in flexion (about 5 degrees) and right hip rotation (about 3 degrees)',
    );
  });

  it('are told once for both sides where they go alike, and for each where they do not', () => {
    const both = (left: number) => [angle('hip', 'flexion', 'right', 8.6), angle('hip', 'flexion', 'left', left)];
    expect(caution(both(7.7))).toBe('hip flexion on both sides (about 9 degrees)');
    expect(caution(both(7.5))).toBe('right hip flexion (about 9 degrees) and left hip flexion (about 8 degrees)');
  });

  it('name four and count the rest', () => {
    const angles = ['flexion', 'rotation', 'abduction'].flatMap((motion, index) => [
      angle('hip', motion, 'right', 10 - index),
      angle('knee', motion, 'right', 7 - index),
    ]);
    expect(caution(angles)).toMatch(/^right hip flexion \(about 10 degrees\), .* \(about 7 degrees\) and 2 more$/);
  });

  it('are none where nothing shifts enough, and the pelvis has no side', () => {
    expect(caution([angle('hip', 'rotation', 'right', 1.9)], 1)).toBe('');
    expect(caution([angle('pelvis', 'tilt', 'midline', 7.7)])).toBe('pelvic tilt (about 8 degrees)');
  });

  it('are told as a range where nobody knows well how far the marker is off', () => {
    const angles = [angle('hip', 'flexion', 'right', 10)];
    expect(caution(angles, undefined, 0.34)).toBe('right hip flexion (about 10 degrees)');
    expect(caution(angles, undefined, 0.6)).toBe('right hip flexion (4 to 16 degrees)');
    expect(caution(angles, undefined, 1.2)).toBe('right hip flexion (up to 22 degrees)');
  });
});
