import { describe, expect, test } from 'vitest';
import { readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { forEachPointBlock, forEachStridedBlock, isValidPoint, readPoints } from '../../../src/core/c3d/read-points.ts';
import { plainTrial, plainValues } from './plain-trial.ts';

const expected = [...plainValues(3, 4)];
const analog = { labels: ['plate x', 'plate z'], samplesPerFrame: 3, values: new Float32Array(24).fill(99) };
const variants = (['intel', 'dec', 'mips'] as const).flatMap((processor) =>
  (['float', 'int'] as const).flatMap((numberFormat) =>
    [false, true].flatMap((withAnalog) =>
      [0, 1, 2, 3].map((shift) => ({ processor, numberFormat, withAnalog, shift })),
    ),
  ),
);

/** The bytes inside a larger buffer, starting `shift` bytes off any alignment, between bytes of something else. */
function pooled(bytes: Uint8Array, shift: number): Uint8Array {
  const pool = new Uint8Array(bytes.length + 64).fill(0xee);
  pool.set(bytes, 16 + shift);
  return pool.subarray(16 + shift, 16 + shift + bytes.length);
}

describe.each(variants)('$processor $numberFormat, analog $withAnalog, $shift bytes off', (variant) => {
  const { processor, numberFormat, withAnalog, shift } = variant;
  const bytes = pooled(plainTrial({ processor, numberFormat, ...(withAnalog ? { analog } : {}) }), shift);

  test('readPoints', () => {
    expect([...readPoints(readC3d(bytes)).values]).toEqual(expected);
  });

  test.each([1, 2, 3, 4, 100])('forEachPointBlock, %i frames a block', (framesPerBlock) => {
    const values: number[] = [];
    const blocks: [number, number][] = [];
    forEachPointBlock(readC3d(bytes), framesPerBlock, (block, firstFrameIndex, frameCount) => {
      blocks.push([firstFrameIndex, frameCount]);
      values.push(...block);
    });
    expect(values).toEqual(expected);
    expect(blocks.reduce((sum, [, count]) => sum + count, 0)).toBe(4);
    expect(blocks.every(([first], i) => first === i * framesPerBlock)).toBe(true);
  });

  test('forEachStridedBlock', () => {
    const values: number[] = [];
    forEachStridedBlock(readC3d(bytes), 3, (block, stride, _first, frameCount) => {
      for (let frame = 0; frame < frameCount; frame++)
        values.push(...block.subarray(frame * stride, frame * stride + 12));
    });
    expect(values).toEqual(expected);
  });
});

test('Intel floats without analog data are a view on the file', () => {
  const bytes = plainTrial();
  expect(readPoints(readC3d(bytes)).values.buffer).toBe(bytes.buffer);
});

test('a decoded block is one buffer used again', () => {
  const buffers = new Set<ArrayBufferLike>();
  forEachPointBlock(readC3d(plainTrial({ processor: 'mips' })), 1, (block) => buffers.add(block.buffer));
  expect(buffers.size).toBe(1);
});

test('a pooled Node Buffer is read at its place', () => {
  const bytes = plainTrial();
  const first = Buffer.from('something before');
  const buffer = Buffer.from(bytes);
  expect(first.buffer.byteLength).toBeGreaterThan(0);
  expect(buffer.byteOffset).toBeGreaterThan(0);
  expect([...readPoints(readC3d(buffer)).values]).toEqual(expected);
});

test('a block of no frames is refused', () => {
  expect(() => forEachPointBlock(readC3d(plainTrial()), 0, () => {})).toThrow(RangeError);
  expect(() => forEachPointBlock(readC3d(plainTrial()), Number.NaN, () => {})).toThrow(RangeError);
});

test.each<[string, number[], boolean]>([
  ['measured', [1, 2, 3, 259], true],
  ['interpolated', [1, 2, 3, 0], true],
  ['at the origin', [0, 0, 0, 0], true],
  ['marked invalid', [1, 2, 3, -1], false],
  ['a camera bit in the sign', [1, 2, 3, -32768], false],
  ['not a number', [1, Number.NaN, 3, 0], false],
  ['infinite', [1, 2, Number.NEGATIVE_INFINITY, 0], false],
  ['infinite both ways', [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0, 0], false],
  ['largest singles', [3.4e38, 3.4e38, 3.4e38, 0], true],
  ['an enormous residual word', [1, 2, 3, 1.7e38], true],
])('a point %s', (_what, point, valid) => {
  expect(isValidPoint([9, 9, 9, 9, ...point], 4)).toBe(valid);
});
