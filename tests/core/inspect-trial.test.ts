import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { C3dError } from '../../src/core/c3d/c3d-error.ts';
import { inspectTrial } from '../../src/core/inspect-trial.ts';
import { plainTrial, plainValues } from './c3d/plain-trial.ts';

test('a planted trial is described exactly', () => {
  const values = plainValues(3, 4);
  values.set([Number.NaN, 1, 2, 0], 0);
  const bytes = plainTrial({
    values,
    firstFrame: 41,
    labels: ['R_ASIS', '', 'S1', 'C7'],
    analog: { labels: ['plate z'], samplesPerFrame: 10, values: new Float32Array(40) },
  });
  expect(inspectTrial(bytes, 'invented/standing.c3d')).toEqual({
    path: 'invented/standing.c3d',
    processor: 'intel',
    numberFormat: 'float',
    points: 3,
    frames: 4,
    firstFrame: 41,
    rateHz: 100,
    units: 'mm',
    labels: ['R_ASIS', '', 'S1', 'C7'],
    markers: [
      { index: 0, label: 'R_ASIS', validFrames: 3, firstValid: [100, 101, 102], mean: [200, 201, 202] },
      { index: 1, label: '', validFrames: 4, firstValid: [10, 11, 12], mean: [160, 161, 162] },
      { index: 2, label: 'S1', validFrames: 3, firstValid: [20, 21, 22], mean: [560 / 3, 563 / 3, 566 / 3] },
    ],
    analog: {
      channels: 1,
      rateHz: 1000,
      samplesPerFrame: 10,
      signals: [{ index: 0, label: 'plate z', units: '', mean: 0 }],
    },
    plates: [],
    warnings: [
      { code: 'labels-more-than-points', message: '4 labels for 3 points; the surplus names nothing.' },
      { code: 'labels-blank', message: 'Points without a label: 2.' },
    ],
  });
});

test('plates are told as the file describes them, and those that cannot be used with the reason', () => {
  const file = readFileSync(new URL('../../sample-trials/on-force-plates.c3d', import.meta.url));
  const { plates, analog } = inspectTrial(file, '');
  expect(plates.map(({ number, type, channels, reason }) => [number, type, channels, reason])).toEqual([
    [1, 2, [1, 2, 3, 4, 5, 6], ''],
    [2, 4, [7, 8, 9, 10, 11, 12], ''],
  ]);
  expect(plates[0]!.corners.length).toBe(4);
  expect(analog.signals.map(({ label, units }) => `${label} ${units}`).slice(5, 8)).toEqual([
    'plate1.6 Nmm',
    'plate2.1 N',
    'plate2.2 N',
  ]);
  const changed = new Uint8Array(file);
  const at = Buffer.from(changed).indexOf('TYPE');
  // Past name, next-offset, type, number of dimensions and the dimension.
  changed[at + 4 + 2 + 3] = 77;
  expect(inspectTrial(changed, '').plates[0]).toEqual({
    number: 1,
    type: 77,
    channels: [],
    corners: [],
    reason: 'its type is 77, and types 1 to 4 are known here',
  });
});

test('means do not drift over many frames', () => {
  // Single-precision sums would be off by centimetres here.
  const frameCount = 200_000;
  const values = new Float32Array(frameCount * 4);
  for (let at = 0; at < values.length; at += 4) values.set([1234.5, 1000.25 + (at % 8) / 8, -0.0625, 1], at);
  const bytes = plainTrial({ labels: ['S1'], pointCount: 1, frameCount, values });
  expect(inspectTrial(bytes, '').markers[0]!.mean).toEqual([1234.5, 1000.5, -0.0625]);
});

// Public sample files with a decode by an independent reader: they stay outside the repository.
const samplesUrl = new URL('../../../shared/c3d-samples/', import.meta.url);
const present = existsSync(samplesUrl);
const samples = present
  ? readdirSync(samplesUrl, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.c3d'))
  : [];

/** The independent reader prints nine digits of single-precision numbers. */
const RELATIVE_TOLERANCE = 2e-7;

interface Expected {
  readable?: false;
  processor: 'intel' | 'dec' | 'sgi';
  format: 'real' | 'int';
  points: number;
  frames: number;
  first_frame: number;
  rate: number;
  units: string | null;
  labels: string[];
  points_data: {
    label: string;
    valid: number;
    first_valid_xyz: number[] | null;
    mean_xyz: number[] | null;
  }[];
  analog: { channels: number; rate: number };
}

function expectNear(found: readonly number[] | null, expected: readonly number[] | null, what: string): void {
  if (expected === null) {
    expect(found, what).toBeNull();
    return;
  }
  expected.forEach((value, axis) => {
    const tolerance = RELATIVE_TOLERANCE * Math.max(1, Math.abs(value));
    expect(Math.abs(found![axis]! - value), `${what}, axis ${axis}`).toBeLessThanOrEqual(tolerance);
  });
}

const reason = present ? '' : ' (skipped: ../shared/c3d-samples is not there)';
describe.skipIf(!present)(`public sample files${reason}`, () => {
  test('there are some', () => expect(samples.length).toBeGreaterThan(15));

  test.each(samples)('%s', (name) => {
    const expected: Expected = JSON.parse(
      readFileSync(new URL(name.replace(/\.c3d$/, '.expected.json'), samplesUrl), 'utf8'),
    );
    const bytes = readFileSync(new URL(name, samplesUrl));
    if (expected.readable === false) {
      expect(() => inspectTrial(bytes, name)).toThrow(C3dError);
      return;
    }
    const found = inspectTrial(bytes, name);
    expect(found).toMatchObject({
      processor: expected.processor === 'sgi' ? 'mips' : expected.processor,
      numberFormat: expected.format === 'real' ? 'float' : 'int',
      points: expected.points,
      frames: expected.frames,
      firstFrame: expected.first_frame,
      units: expected.units,
      labels: expected.labels,
    });
    expect(found.analog.channels).toBe(expected.analog.channels);
    // Where no rate is known the other reader writes 0.
    expect(found.rateHz ?? 0).toBeCloseTo(expected.rate, 5);
    expect(found.analog.rateHz ?? 0).toBeCloseTo(expected.analog.rate, 3);
    expect(found.markers.map(({ label, validFrames }) => [label, validFrames])).toEqual(
      expected.points_data.map(({ label, valid }) => [label, valid]),
    );
    expected.points_data.forEach((point, index) => {
      expectNear(found.markers[index]!.firstValid, point.first_valid_xyz, `point ${index}, first valid`);
      expectNear(found.markers[index]!.mean, point.mean_xyz, `point ${index}, mean`);
    });
  });
});
