import { existsSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type C3dGroup, readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../../src/core/c3d/read-points.ts';
import { type C3dContents, writeC3d } from '../../../src/core/c3d/write-c3d.ts';
import { plainContents, plainTrial, plainValues } from './plain-trial.ts';

const encodings = (['intel', 'dec', 'mips'] as const).flatMap((processor) =>
  (['float', 'int'] as const).map((numberFormat) => ({ processor, numberFormat })),
);

/** Trials whose coordinates are whole steps of 0.5, which integers hold exactly. */
const trials = fc
  .record({
    pointCount: fc.integer({ min: 0, max: 6 }),
    frameCount: fc.integer({ min: 0, max: 9 }),
    channels: fc.integer({ min: 0, max: 3 }),
    samplesPerFrame: fc.integer({ min: 1, max: 4 }),
  })
  .chain((size) =>
    fc.record({
      size: fc.constant(size),
      firstFrame: fc.integer({ min: 1, max: 65000 }),
      rateHz: fc.constantFrom(50, 100, 120, 250.5),
      points: fc.array(
        fc.tuple(
          fc.integer({ min: -32000, max: 32000 }),
          fc.integer({ min: -32000, max: 32000 }),
          fc.integer({ min: -32000, max: 32000 }),
          fc.constantFrom(0, 3, 257, 32512),
        ),
        { minLength: size.pointCount * size.frameCount, maxLength: size.pointCount * size.frameCount },
      ),
      labels: fc.array(fc.stringMatching(/^[A-Z0-9_]{0,9}$/), { maxLength: size.pointCount + 2 }),
    }),
  );

describe.each(encodings)('$processor $numberFormat', (encoding) => {
  test('what is written is read back', () => {
    fc.assert(
      fc.property(trials, ({ size, firstFrame, rateHz, points, labels }) => {
        const { channels, samplesPerFrame, pointCount, frameCount } = size;
        const values = Float32Array.from(points.flatMap(([x, y, z, word]) => [x / 2, y / 2, z / 2, word]));
        const analog = {
          labels: Array.from({ length: channels }, (_, i) => `A${i}`),
          samplesPerFrame,
          values: Float32Array.from({ length: channels * samplesPerFrame * frameCount }, (_, i) => i % 100),
        };
        const contents: C3dContents = {
          ...encoding,
          units: 'mm',
          rateHz,
          firstFrame,
          labels,
          pointCount,
          frameCount,
          values,
          scale: 0.5,
          analog,
        };
        const bytes = writeC3d(contents);
        const file = readC3d(bytes);
        expect(file).toMatchObject({
          ...encoding,
          pointCount,
          frameCount: pointCount + channels === 0 ? 0 : frameCount,
          firstFrame,
          rateHz,
          units: 'mm',
          labels,
          scale: encoding.numberFormat === 'float' ? -0.5 : 0.5,
          truncated: false,
          analogPerFrame: channels * samplesPerFrame,
        });
        expect(file.analog.channels).toBe(channels);
        expect([...readPoints(file).values].map((value) => value + 0)).toEqual([...values].map((value) => value + 0));
        expect(writeC3d(contents)).toEqual(bytes);
      }),
      { numRuns: 60 },
    );
  });

  test('decodes as the others do, invalid point and all', () => {
    const values = plainValues(3, 4);
    const file = readC3d(plainTrial({ ...encoding, values, scale: 0.25 }));
    expect([...readPoints(file).values]).toEqual([...values]);
    expect(file.warnings).toEqual([]);
  });

  test('a position that is not finite is no valid point', () => {
    const values = plainValues(3, 4);
    values.set([1, Number.NaN, 3, 5, 1, 2, Number.POSITIVE_INFINITY, 5], 0);
    const read = readPoints(readC3d(plainTrial({ ...encoding, values }))).values;
    const finite = [0, 4, 8].map(
      (at) => Number.isFinite(read[at]! + read[at + 1]! + read[at + 2]!) && read[at + 3]! >= 0,
    );
    expect(finite).toEqual([false, false, true]);
  });

  test('text parameters, words and floats of further groups come back', () => {
    const groups: C3dGroup[] = [
      {
        name: 'SUBJECTS',
        description: 'invented',
        parameters: new Map([
          ['NAMES', { name: 'NAMES', description: 'who', type: 'char', dimensions: [5, 2], values: ['Ada', 'Ben'] }],
          ['IS_STATIC', { name: 'IS_STATIC', description: '', type: 'byte', dimensions: [], values: [1] }],
          ['MASS', { name: 'MASS', description: '', type: 'float', dimensions: [2], values: [61.5, -0.125] }],
          ['COUNTS', { name: 'COUNTS', description: '', type: 'int16', dimensions: [3], values: [-1, 0, 32767] }],
        ]),
      },
    ];
    const read = readC3d(plainTrial({ ...encoding, groups })).groups.get('SUBJECTS');
    expect(read).toEqual(groups[0]);
  });
});

/** Header words by number, as the C3D user guide counts them (c3d.org, header section): word 1 is bytes 0 and 1. */
function headerBytes(bytes: Uint8Array, firstWord: number, words = 1): string {
  return Buffer.from(bytes.subarray((firstWord - 1) * 2, (firstWord - 1 + words) * 2)).toString('hex');
}

// Scale and rate by hand: 0.5 is 3f000000 in IEEE and 4000 0000 in DEC words; 100 is 42c80000 and 43c8 0000.
test.each([
  ['intel', 'float', '000000bf', '0000c842', '0300', 54],
  ['intel', 'int', '0000003f', '0000c842', '0300', 54],
  ['mips', 'float', 'bf000000', '42c80000', '0003', 56],
  ['mips', 'int', '3f000000', '42c80000', '0003', 56],
  ['dec', 'float', '00c00000', 'c8430000', '0300', 55],
  ['dec', 'int', '00400000', 'c8430000', '0300', 55],
] as const)(
  'header and parameter header, byte for byte: %s %s',
  (processor, numberFormat, scale, rate, three, code) => {
    const bytes = plainTrial({ processor, numberFormat, firstFrame: 3, frameCount: 1, values: plainValues(3, 1) });
    expect(headerBytes(bytes, 1)).toBe('0250');
    expect(headerBytes(bytes, 2)).toBe(three);
    expect(headerBytes(bytes, 3)).toBe('0000');
    expect(headerBytes(bytes, 4, 2)).toBe(three + three);
    expect(headerBytes(bytes, 7, 2)).toBe(scale);
    expect(headerBytes(bytes, 9)).toBe(three);
    expect(headerBytes(bytes, 11, 2)).toBe(rate);
    expect(headerBytes(bytes, 150)).toBe(processor === 'mips' ? '3039' : '3930');
    expect(Buffer.from(bytes.subarray(512, 516)).toString('hex')).toBe(`015001${code}`);
    expect(bytes.length % 512).toBe(0);
  },
);

// One public trial in all six encodings, written by other software; it stays outside the repository.
const samplesUrl = new URL('../../../../shared/c3d-samples/six-encodings/', import.meta.url);
const present = existsSync(samplesUrl);
const reason = present ? '' : ' (skipped: ../shared/c3d-samples is not there)';
describe.skipIf(!present)(`a public trial in six encodings${reason}`, () => {
  test.each(encodings)('its $processor $numberFormat points are written as it has them', (encoding) => {
    const name = `${encoding.processor}-${encoding.numberFormat}.c3d`;
    const theirs = readC3d(new Uint8Array(readFileSync(new URL(name, samplesUrl))));
    const source = readC3d(new Uint8Array(readFileSync(new URL('mips-float.c3d', samplesUrl))));
    const { values, pointCount, frameCount } = readPoints(source);
    const ours = readC3d(plainTrial({ ...encoding, values, pointCount, frameCount, scale: theirs.scale }));
    const pointBytes = ours.frameStride;
    let different = 0;
    for (let frame = 0; frame < frameCount; frame++) {
      const from = theirs.dataOffset + frame * theirs.frameStride;
      const own = ours.dataOffset + frame * pointBytes;
      for (let i = 0; i < pointBytes; i++) if (theirs.bytes[from + i] !== ours.bytes[own + i]) different++;
    }
    expect(different).toBe(0);
  });
});

test('the six encodings differ in bytes', () => {
  const all = encodings.map((encoding) => Buffer.from(plainTrial(encoding)).toString('hex'));
  expect(new Set(all).size).toBe(6);
});

test('more than 255 labels go on in LABELS2 and LABELS3', () => {
  const labels = Array.from({ length: 600 }, (_, i) => `S1-${i}`);
  const file = readC3d(plainTrial({ labels, pointCount: 600, frameCount: 1, values: plainValues(600, 1) }));
  expect(file.labels).toEqual(labels);
  expect(file.pointCount).toBe(600);
  const parameters = file.groups.get('POINT')!.parameters;
  expect(['LABELS', 'LABELS2', 'LABELS3', 'LABELS4'].map((name) => parameters.get(name)?.values.length)).toEqual([
    255,
    255,
    90,
    undefined,
  ]);
  expect(file.warnings).toEqual([]);
});

test('long labels are spread so that no record outgrows its next-offset', () => {
  const labels = Array.from({ length: 200 }, (_, i) => `${'x'.repeat(200)}${i}`);
  expect(readC3d(plainTrial({ labels, pointCount: 200, frameCount: 1, values: plainValues(200, 1) })).labels).toEqual(
    labels,
  );
});

test.each(encodings)('more frames than a word counts: $processor $numberFormat', (encoding) => {
  const frameCount = 70_001;
  const values = new Float32Array(frameCount * 4);
  values.set([1, 2, 3, 4], (frameCount - 1) * 4);
  const file = readC3d(
    plainTrial({ ...encoding, labels: ['S1'], pointCount: 1, frameCount, values, firstFrame: 66_000 }),
  );
  expect(file).toMatchObject({ frameCount, firstFrame: 66_000, truncated: false, warnings: [] });
  expect([...readPoints(file).values.subarray(-4)]).toEqual([1, 2, 3, 4]);
});

test('a first frame near the limit of the word, and no frames at all', () => {
  expect(readC3d(plainTrial({ firstFrame: 65_534 }))).toMatchObject({
    firstFrame: 65_534,
    frameCount: 4,
    warnings: [],
  });
  const empty = readC3d(plainTrial({ frameCount: 0, values: new Float32Array(0) }));
  expect(empty).toMatchObject({ frameCount: 0, truncated: false });
  expect(readPoints(empty).values.length).toBe(0);
});

test('accents and other letters survive', () => {
  const labels = ['Häberle:S1', '右_R_LE', 'C7'];
  expect(readC3d(plainTrial({ labels })).labels).toEqual(labels);
});

test('integers hold an invalid point whatever its position, and keep it invalid', () => {
  const values = plainValues(3, 4);
  values.set([1e9, -1e9, 1e9, -0.25], 0);
  values.set([1e9, -1e9, 1e9, -1e9], 4);
  const { scale: _scale, ...contents } = plainContents;
  const read = readPoints(readC3d(writeC3d({ ...contents, values, numberFormat: 'int' }))).values;
  expect([...read.subarray(0, 8)]).toEqual([0, 0, 0, -1, 0, 0, 0, -32768]);
  expect(read[8]).toBeCloseTo(20, 1);
});

test('the default scale lets the largest coordinate fill the integers', () => {
  const { scale: _scale, ...contents } = plainContents;
  const file = readC3d(writeC3d({ ...contents, numberFormat: 'int' }));
  expect(file.scale).toBe(Math.fround(322 / 32000));
  const worst = readPoints(file).values.reduce(
    (most, value, i) => Math.max(most, Math.abs(value - plainValues(3, 4)[i]!)),
    0,
  );
  expect(worst).toBeLessThanOrEqual(file.scale / 2 + 1e-4);
});

test.each<[string, Partial<C3dContents>, RegExp]>([
  ['too few values', { frameCount: 5 }, /48 values given; 3 points in 5 frames need 60/],
  ['too many points', { pointCount: 70_000 }, /70000 points given/],
  ['coordinates beyond the integers', { numberFormat: 'int', scale: 0.001 }, /integer steps/],
  ['a scale of 0', { scale: 0 }, /scale is 0/],
  ['labels beyond the section', { labels: Array.from({ length: 1200 }, () => 'x'.repeat(120)) }, /blocks/],
  [
    'analog values that do not add up',
    { analog: { labels: ['plate z'], samplesPerFrame: 2, values: [1, 2, 3] } },
    /3 analog values given; 8 expected/,
  ],
])('%s are refused', (_what, changes, message) => {
  expect(() => plainTrial(changes)).toThrow(RangeError);
  expect(() => plainTrial(changes)).toThrow(message);
});
