import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { averagePoints, framesInCache, PointSums } from '../../../src/core/c3d/average-points.ts';
import { readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { isValidPoint } from '../../../src/core/c3d/read-points.ts';
import { plainTrial } from './plain-trial.ts';

describe('averagePoints', () => {
  // Values are 100 * frame + 10 * point + axis in frames 0 to 3; the third point is invalid in frame 1.
  test.each(['intel', 'dec', 'mips'] as const)('means over the valid frames, %s', (processor) => {
    const { means, validFrames } = averagePoints(readC3d(plainTrial({ processor })));
    expect([...validFrames]).toEqual([4, 4, 3]);
    const last = (0 + 200 + 300) / 3 + 20;
    expect([...means].map((mean) => Math.round(mean * 1e9) / 1e9)).toEqual(
      [150, 151, 152, 160, 161, 162, last, last + 1, last + 2].map((mean) => Math.round(mean * 1e9) / 1e9),
    );
  });

  test('a point that is never seen has no mean', () => {
    const values = Float32Array.of(1, 2, 3, -1, 4, 5, 6, 0);
    const file = readC3d(plainTrial({ pointCount: 2, frameCount: 1, labels: ['S1', 'C7'], values }));
    expect(averagePoints(file)).toEqual({
      means: Float64Array.of(NaN, NaN, NaN, 4, 5, 6),
      validFrames: Uint32Array.of(0, 1),
    });
  });

  test('analog values between the frames are passed over', () => {
    const analog = { labels: ['plate'], samplesPerFrame: 2, values: new Float32Array(8).fill(1e6) };
    expect(averagePoints(readC3d(plainTrial({ analog })))).toEqual(averagePoints(readC3d(plainTrial())));
  });
});

describe('PointSums', () => {
  const single = fc.oneof(
    { weight: 8, arbitrary: fc.integer({ min: -4000, max: 4000 }) },
    { weight: 1, arbitrary: fc.constantFrom(NaN, Infinity, -Infinity, 3e38, -3e38, -0) },
  );
  const word = fc.constantFrom(0, 7936, -1, -0, NaN, 40000);

  test('agrees with isValidPoint frame by frame, whatever the values', () => {
    const frames = fc.array(fc.tuple(single, single, single, word), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(frames, fc.integer({ min: 1, max: 7 }), (points, perBlock) => {
        const sums = new PointSums(1);
        for (let first = 0; first < points.length; first += perBlock) {
          const block = points.slice(first, first + perBlock);
          sums.add(Float32Array.from(block.flat()), 4, block.length);
        }
        const valid = points.map((point) => Float32Array.from(point)).filter((point) => isValidPoint(point, 0));
        const { means, validFrames } = sums.averages();
        expect(validFrames[0]).toBe(valid.length);
        for (let axis = 0; axis < 3; axis++) {
          const mean = valid.reduce((sum, point) => sum + point[axis]!, 0) / valid.length;
          const size = valid.reduce((sum, point) => sum + Math.abs(point[axis]!), 0);
          if (valid.length === 0) expect(means[axis]).toBeNaN();
          else expect(Math.abs(means[axis]! - mean)).toBeLessThanOrEqual(size * 1e-14);
        }
      }),
    );
  });

  test('infinities of both signs do not pass for a number', () => {
    const sums = new PointSums(1);
    sums.add(Float32Array.of(Infinity, 0, 0, 0, -Infinity, 0, 0, 0, 5, 6, 7, 0), 4, 3);
    expect(sums.averages()).toEqual({ means: Float64Array.of(5, 6, 7), validFrames: Uint32Array.of(1) });
  });
});

test('a block holds at least one frame', () => {
  expect([1, 22, 80, 65535].map(framesInCache)).toEqual([1024, 46, 12, 1]);
});
