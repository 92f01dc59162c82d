import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { floatParameter, textParameter, wordParameter } from '../../src/core/c3d/build-parameter.ts';
import { type C3dGroup, type C3dParameter, readC3d } from '../../src/core/c3d/read-c3d.ts';
import { isValidPoint, readPoints } from '../../src/core/c3d/read-points.ts';
import { inspectTrial } from '../../src/core/inspect-trial.ts';
import {
  patched,
  plainTrial,
  plainValues,
  recordOffset,
  valuesOffset,
  withFloat,
  withoutParameter,
  withWord,
} from '../core/c3d/plain-trial.ts';

const page = readFileSync(new URL('../../docs/c3d-notes.md', import.meta.url), 'utf8');
const claims = [...page.matchAll(/^- \*\*(.+?)\.\*\* /gm)].map((match) => match[1]!);

const plain = plainTrial();
const plainPoints = [...plainValues(3, 4)];
/** Large enough that another number of points, frames or bytes would not end in the last block. */
const longer = { frameCount: 40, values: plainValues(3, 40) };
const points = (bytes: Uint8Array): number[] => [...readPoints(readC3d(bytes)).values];
const group = (name: string, ...parameters: C3dParameter[]): C3dGroup => ({
  name,
  description: '',
  parameters: new Map(parameters.map((parameter) => [parameter.name, parameter])),
});

/** What inspect says of one point in one frame. */
function onePoint(values: [number, number, number, number], scale = 0.5) {
  const bytes = plainTrial({ labels: ['S1'], pointCount: 1, frameCount: 1, values: Float32Array.from(values), scale });
  const { markers, warnings } = inspectTrial(bytes, '');
  return { ...markers[0]!, codes: warnings.map(({ code }) => code) };
}

/** One test for each point of the page, under its first words. */
const held: Record<string, () => void> = {
  'What fits the file'() {
    // The header, though trusted first, would need 30 points; POINT:USED fits.
    const bytes = withWord(plainTrial(longer), 2, 30);
    expect(readC3d(bytes)).toMatchObject({ pointCount: 3, frameCount: 40, truncated: false });
    // Nothing ends in the last block: the most trusted, as it fits.
    const padded = new Uint8Array(plain.length + 5000);
    padded.set(plain);
    expect(readC3d(withWord(padded, 8, 60)).frameCount).toBe(4);
    // The most trusted does not fit: the first that fills at least half of what is there.
    const many = plainTrial({ frameCount: 100, values: plainValues(3, 100) });
    const withRest = new Uint8Array(many.length + 2000);
    withRest.set(many);
    expect(readC3d(withWord(withRest, valuesOffset(many, 'FRAMES'), 900)).frameCount).toBe(100);
    // None does: the most trusted, as far as the file goes.
    const cut = withWord(withWord(many, valuesOffset(many, 'FRAMES'), 900), 8, 3).subarray(0, 1024 + 48 * 80);
    expect(readC3d(cut)).toMatchObject({ frameCount: 80, truncated: true });
  },
  'Start of the data'() {
    const moved = new Uint8Array(plain.length + 512);
    moved.set(plain.subarray(0, 1024));
    moved.set(plain.subarray(1024), 1536);
    expect(points(withWord(moved, valuesOffset(plain, 'DATA_START'), 4))).toEqual(plainPoints);
    expect(points(withWord(withWord(plain, 16, 99), valuesOffset(plain, 'DATA_START'), 88))).toEqual(plainPoints);
  },
  'Number of points'() {
    // Both fit the one block of data.
    expect(readC3d(withWord(plain, valuesOffset(plain, 'USED'), 2)).pointCount).toBe(3);
    expect(readC3d(withWord(plainTrial(longer), 2, 30)).pointCount).toBe(3);
  },
  'Number of frames'() {
    const long = group('POINT', floatParameter('LONG_FRAMES', 3));
    const trial = group('TRIAL', wordParameter('ACTUAL_START_FIELD', 1, 0), wordParameter('ACTUAL_END_FIELD', 2, 0));
    const all = withWord(plainTrial({ groups: [long, trial] }), 8, 1);
    const withoutLong = withoutParameter(all, 'LONG_FRAMES');
    const withoutFrames = withoutParameter(withoutLong, 'FRAMES');
    const headerOnly = withoutParameter(withoutFrames, 'ACTUAL_END_FIELD');
    expect([all, withoutLong, withoutFrames, headerOnly].map((bytes) => readC3d(bytes).frameCount)).toEqual([
      3, 4, 2, 1,
    ]);
  },
  'Counts in 16 bits'() {
    const one = { labels: ['S1'], pointCount: 1 };
    const counted = (frameCount: number) =>
      readC3d(plainTrial({ ...one, frameCount, values: new Float32Array(frameCount * 4) })).frameCount;
    expect(counted(40_000)).toBe(40_000);
    // POINT:FRAMES and the header both say 65535 here.
    expect(counted(70_000)).toBe(70_000);
  },
  'Counts in two words'() {
    const frameCount = 70_000;
    const bytes = plainTrial({ labels: ['S1'], pointCount: 1, frameCount, values: new Float32Array(frameCount * 4) });
    const trialOnly = withoutParameter(withoutParameter(bytes, 'LONG_FRAMES'), 'FRAMES');
    expect([...bytes.subarray(valuesOffset(bytes, 'ACTUAL_END_FIELD')).subarray(0, 4)]).toEqual([0x70, 0x11, 1, 0]);
    expect(readC3d(trialOnly).frameCount).toBe(0x11170);
  },
  'Analog values in a frame'() {
    const analog = { labels: ['a', 'b'], samplesPerFrame: 3, values: new Float32Array(240) };
    const bytes = plainTrial({ ...longer, analog });
    expect(readC3d(withWord(bytes, valuesOffset(bytes, 'USED', 2), 30)).analogPerFrame).toBe(6);
    expect(readC3d(withWord(bytes, 4, 40)).analogPerFrame).toBe(6);
  },
  'Floats or integers'() {
    for (const numberFormat of ['float', 'int'] as const) {
      const bytes = plainTrial({ ...longer, numberFormat });
      const sign = numberFormat === 'float' ? -1 : 1;
      expect(readC3d(bytes)).toMatchObject({ numberFormat, scale: sign * 0.5 });
      expect(readC3d(withFloat(bytes, 12, -sign)).numberFormat).toBe(numberFormat);
      expect(readC3d(withFloat(bytes, valuesOffset(bytes, 'SCALE'), -sign)).numberFormat).toBe(numberFormat);
    }
  },
  Scale() {
    expect(readC3d(withFloat(plain, 12, -7)).scale).toBe(-0.5);
    const integers = plainTrial({ ...longer, numberFormat: 'int' });
    expect(readC3d(withFloat(integers, valuesOffset(integers, 'SCALE'), -7)).scale).toBe(0.5);
    expect(readC3d(withFloat(withoutParameter(plainTrial(longer), 'SCALE'), 12, 0)).scale).toBe(-1);
  },
  'Frame rate'() {
    expect(readC3d(withFloat(plain, 20, 50)).rateHz).toBe(100);
    expect(readC3d(withFloat(withoutParameter(plain, 'RATE'), 20, 50)).rateHz).toBe(50);
    expect(readC3d(withFloat(withoutParameter(plain, 'RATE'), 20, 0)).rateHz).toBeNull();
  },
  'First frame'() {
    const started = (firstFrame: number, low: number, high: number) =>
      readC3d(plainTrial({ firstFrame, groups: [group('TRIAL', wordParameter('ACTUAL_START_FIELD', low, high))] }))
        .firstFrame;
    expect(started(12, 177, 0)).toBe(12);
    expect(started(0, 177, 0)).toBe(177);
    expect(started(177, 177, 1)).toBe(65713);
  },
  'Byte order'() {
    for (const [processor, byte] of [
      ['intel', 84],
      ['dec', 85],
      ['mips', 86],
    ] as const) {
      const bytes = plainTrial({ processor });
      expect(bytes[515]).toBe(byte);
      expect(readC3d(bytes)).toMatchObject({ processor, pointCount: 3 });
      expect(points(bytes)).toEqual(plainPoints);
    }
    expect(readC3d(patched(plainTrial({ processor: 'mips' }), 515, [7])).processor).toBe('mips');
  },
  'Stored twice'() {
    const twice = plainTrial({ groups: [group('POINT', textParameter('UNITZ', 'm'))] });
    expect(readC3d(patched(twice, recordOffset(twice, 'UNITZ') + 6, [0x53])).units).toBe('mm');
    const other = plainTrial({ groups: [group('POINX', wordParameter('MORE', 7))] });
    const joined = readC3d(patched(other, recordOffset(other, 'POINX') + 6, [0x54])).groups.get('POINT')!;
    expect(joined.parameters.get('MORE')?.values).toEqual([7]);
    expect(joined.parameters.has('LABELS')).toBe(true);
  },
  Labels() {
    const labels = Array.from({ length: 300 }, (_, index) => `P${index + 1}`);
    const file = readC3d(plainTrial({ labels, pointCount: 300, frameCount: 1, values: new Float32Array(1200) }));
    expect(file.groups.get('POINT')!.parameters.get('LABELS2')?.values).toHaveLength(45);
    expect(file.labels).toEqual(labels);
    for (const some of [['S1'], ['S1', 'C7', 'GT', 'LE']]) {
      expect(readC3d(plainTrial({ labels: some })).labels).toEqual(some);
    }
  },
  Gap() {
    for (const values of [
      [1, 2, 3, -1],
      [Number.NaN, 2, 3, 0],
      [1, 2, Number.POSITIVE_INFINITY, 3],
    ] as const) {
      expect(isValidPoint(values, 0)).toBe(false);
      expect(onePoint([...values])).toMatchObject({ validFrames: 0, mean: null });
    }
  },
  Zeros() {
    expect(onePoint([0, 0, 0, 0])).toMatchObject({ validFrames: 1, mean: [0, 0, 0] });
  },
  Residual() {
    // The reader hands the word on; a residual of 3 steps of 0.5 mm is 1.5 mm.
    const file = readC3d(plain);
    const word = Math.round(readPoints(file).values[3]!);
    expect((word & 0xff) * Math.abs(file.scale)).toBe(1.5);
    expect(onePoint([1, 2, 3, 0]).validFrames).toBe(1);
  },
  Cameras() {
    const values = Float32Array.of(1, 2, 3, 0b1010001 * 256 + 4);
    for (const numberFormat of ['float', 'int'] as const) {
      const bytes = plainTrial({ labels: ['S1'], pointCount: 1, frameCount: 1, values, numberFormat });
      const word = readPoints(readC3d(bytes)).values[3]!;
      expect([word >> 8, word & 0xff]).toEqual([0b1010001, 4]);
    }
  },
  Coordinates() {
    expect(points(plain)).toEqual(plainPoints);
    const integers = plainTrial({ numberFormat: 'int' });
    // The third point lies at 20 mm.
    expect(new DataView(integers.buffer).getInt16(1024 + 16, true)).toBe(20 / 0.5);
    expect(points(integers)).toEqual(plainPoints);
  },
  'Words beyond 16 bits'() {
    expect(onePoint([1, 2, 3, 1.7e38])).toMatchObject({ validFrames: 1, codes: ['residual-words-oversized'] });
    expect(onePoint([1, 2, 3, -1.7e38]).validFrames).toBe(0);
  },
  'DEC floats'() {
    const bytes = plainTrial({
      processor: 'dec',
      labels: ['S1'],
      pointCount: 1,
      frameCount: 1,
      values: Float32Array.of(1, -2, 0, 0),
    });
    // IEEE 4.0 is 0x40800000: words exchanged, each low byte first.
    expect([...bytes.subarray(1024, 1028)]).toEqual([0x80, 0x40, 0, 0]);
    expect(points(bytes)).toEqual([1, -2, 0, 0]);
  },
  Unit() {
    const metres = readC3d(plainTrial({ units: 'm' }));
    expect(metres.units).toBe('m');
    expect(points(plainTrial({ units: 'm' }))).toEqual(plainPoints);
  },
  Axes() {
    const bytes = plainTrial({ screen: { x: '+Y', y: '-Z' } });
    expect(readC3d(bytes).screen).toEqual({ x: '+Y', y: '-Z' });
    expect(points(bytes)).toEqual(plainPoints);
  },
  'Analog values'() {
    const analog = { labels: ['a'], samplesPerFrame: 2, values: new Float32Array(8).fill(999) };
    expect(points(plainTrial({ analog }))).toEqual(plainPoints);
  },
  Events() {
    // Words 150 and 151: the key of the event section and a count.
    const bytes = withWord(withWord(plain, 149 * 2, 12345), 150 * 2, 3);
    expect(inspectTrial(bytes, '')).toEqual(inspectTrial(plain, ''));
  },
  'Other groups'() {
    const { groups } = readC3d(plainTrial({ groups: [group('LAB', floatParameter('HEIGHT', 1.25))] }));
    expect(groups.get('LAB')?.parameters.get('HEIGHT')).toMatchObject({ type: 'float', values: [1.25] });
  },
  Locks() {
    expect(readC3d(patched(plain, recordOffset(plain, 'UNITS'), [256 - 5])).units).toBe('mm');
  },
};

describe('docs/c3d-notes.md', () => {
  it('has a test here for each of its points, and for nothing else', () => {
    expect(claims.length).toBeGreaterThan(20);
    expect(Object.keys(held)).toEqual(claims);
  });

  it.each(Object.keys(held))('%s', (claim) => held[claim]!());
});
