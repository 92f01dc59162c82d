import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Frame } from '../../../src/core/gait-model/frame.ts';
import {
  ankleAngles,
  cardanAngles,
  footProgression,
  hipAngles,
  kneeAngles,
  pelvisAngles,
} from '../../../src/core/gait-model/joint-angles.ts';
import { cross, direction, type Vec3 } from '../../../src/core/geometry/vector.ts';
import { pelvisFrame } from '../../../src/core/pose/pelvis-frame.ts';
import { room } from './stand-model.ts';

/**
 * Enderle and Bronzino, Introduction to Biomedical Engineering, chapter 4, examples 4.10 to 4.12: marker coordinates in
 * metres; the minus signs that the online text lost are restored by computing it again.
 */
const published = {
  rightAsis: [-0.85, -0.802, 0.652] as Vec3,
  leftAsis: [-0.831, -0.651, 0.652] as Vec3,
  back: [-1.015, -0.704, 0.686] as Vec3,
  thighUp: [-0.137, 0.175, 0.975] as Vec3,
};

describe('the published worked example', () => {
  const pelvis = pelvisFrame(published.rightAsis, published.leftAsis, published.back)!;

  it('has a pelvis tilted 11, oblique 1 and turned 7 degrees', () => {
    const { tilt, obliquity, rotation } = pelvisAngles(pelvis, room);
    expect(tilt).toBeCloseTo(10.85, 1);
    expect(Math.abs(obliquity)).toBeCloseTo(1.36, 1);
    expect(rotation).toBeCloseTo(-7.04, 1);
  });

  it('has a hip abducted by 9 degrees', () => {
    const up = direction(published.thighUp)!;
    const forward = direction(cross(pelvis.left, up))!;
    const thigh: Frame = { forward, left: cross(up, forward), up };
    expect(hipAngles(pelvis, thigh, 'right').adduction).toBeCloseTo(-9, 0);
    expect(hipAngles(pelvis, thigh, 'left').adduction).toBeCloseTo(9, 0);
  });
});

/** A frame turned about its own left, forward and up axis, one after the other; degrees. */
function turned(aboutLeft: number, aboutForward: number, aboutUp: number): Frame {
  const [a, b, c] = [aboutLeft, aboutForward, aboutUp].map((deg) => (deg * Math.PI) / 180) as [number, number, number];
  const turn = ([x, y, z]: Vec3): Vec3 => {
    const [x1, y1] = [x * Math.cos(c) - y * Math.sin(c), x * Math.sin(c) + y * Math.cos(c)];
    const [y2, z2] = [y1 * Math.cos(b) - z * Math.sin(b), y1 * Math.sin(b) + z * Math.cos(b)];
    return [x1 * Math.cos(a) + z2 * Math.sin(a), y2, -x1 * Math.sin(a) + z2 * Math.cos(a)];
  };
  return { forward: turn(room.forward), left: turn(room.left), up: turn(room.up) };
}

const deg = (most: number) => fc.double({ min: -most, max: most, noNaN: true });

describe('a sequence of turns', () => {
  it('is read back as it was made', () => {
    fc.assert(
      fc.property(deg(170), deg(80), deg(170), (a, b, c) => {
        const read = cardanAngles(room, turned(a, b, c));
        expect(read.aboutLeft).toBeCloseTo(a, 6);
        expect(read.aboutForward).toBeCloseTo(b, 6);
        expect(read.aboutUp).toBeCloseTo(c, 6);
      }),
    );
  });
});

describe('signs', () => {
  it('are those that clinicians use', () => {
    // The top of the thigh behind its lower end: the knee is in front, the hip flexed.
    expect(hipAngles(room, turned(-20, 0, 0), 'right').flexion).toBeCloseTo(20);
    // The lower end of the right thigh out to the right, its top to the left: abducted.
    expect(hipAngles(room, turned(0, -10, 0), 'right').adduction).toBeCloseTo(-10);
    expect(hipAngles(room, turned(0, 10, 0), 'left').adduction).toBeCloseTo(-10);
    // The right knee faces to the left: turned inward.
    expect(hipAngles(room, turned(0, 0, 12), 'right').rotation).toBeCloseTo(12);
    expect(hipAngles(room, turned(0, 0, -12), 'left').rotation).toBeCloseTo(12);
    // The top of the shank in front of its lower end: the foot is behind, the knee flexed.
    expect(kneeAngles(room, turned(30, 0, 0), 'left').flexion).toBeCloseTo(30);
    // The right foot toward the left, under the body: the knee points out, varus.
    expect(kneeAngles(room, turned(0, 6, 0), 'right').varus).toBeCloseTo(6);
    expect(kneeAngles(room, turned(0, -6, 0), 'left').varus).toBeCloseTo(6);
    const up = direction([1, 0, 0.2])!;
    expect(ankleAngles(room, up, 'right').dorsiflexion).toBeCloseTo((Math.atan(0.2) * 180) / Math.PI);
    expect(ankleAngles(room, direction([1, 0.2, 0])!, 'right').rotation).toBeGreaterThan(11);
    expect(footProgression(direction([1, -0.2, 0])!, room, 'right')).toBeGreaterThan(11);
    expect(footProgression(direction([1, 0.2, 0])!, room, 'left')).toBeGreaterThan(11);
  });
});
