import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { floatParameter, textParameter } from '../../../src/core/c3d/build-parameter.ts';
import { meanAnalog, readAnalog } from '../../../src/core/c3d/read-analog.ts';
import { readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { type C3dContents, writeC3d } from '../../../src/core/c3d/write-c3d.ts';

const samples = new URL('../../../../shared/c3d-samples/', import.meta.url);

interface ExpectedChannel {
  readonly index: number;
  readonly scale: number;
  readonly offset: number;
  readonly first_raw: number;
  readonly raw_min: number;
  readonly raw_max: number;
  readonly mean_scaled: number;
}

/** The decodes beside the public samples were made by an independent reader. */
describe.skipIf(!existsSync(samples) && process.env.CI !== 'true')('force-plate samples of the format', () => {
  it.each(['type-2', 'type-3', 'type-4'])('%s: every channel as an independent reader has it', (name) => {
    const file = readC3d(readFileSync(new URL(`force-plates/${name}.c3d`, samples)));
    const { analog } = JSON.parse(readFileSync(new URL(`force-plates/${name}.expected.json`, samples), 'utf8'));
    expect(file.analog.channels).toBe(analog.channels);
    expect(file.analog.samplesPerFrame).toBe(analog.samples_per_frame);
    const means = meanAnalog(file);
    const expected = analog.channel_data as readonly ExpectedChannel[];
    expect(expected.length).toBe(file.analog.channels);
    for (const { index, scale, offset, first_raw, raw_min, raw_max, mean_scaled } of expected) {
      const unit = Math.abs(scale * analog.gen_scale);
      const near = (raw: number) => (raw - offset) * scale * analog.gen_scale;
      const values = readAnalog(file, index);
      expect(values.length).toBe(file.frameCount * analog.samples_per_frame);
      expect(Math.abs(values[0]! - near(first_raw)) / unit, `first of ${index}`).toBeLessThan(1e-4);
      const [low, high] = [near(raw_min), near(raw_max)].sort((a, b) => a - b);
      expect(Math.abs(values.reduce((a, b) => Math.min(a, b)) - low!) / unit).toBeLessThan(2e-3);
      expect(Math.abs(values.reduce((a, b) => Math.max(a, b)) - high!) / unit).toBeLessThan(2e-3);
      expect(Math.abs(means[index]! - mean_scaled) / unit, `mean of ${index}`).toBeLessThan(1e-4);
    }
  });
});

function trial(changes: Partial<C3dContents> = {}): C3dContents {
  return {
    rateHz: 100,
    units: 'mm',
    labels: ['C7'],
    pointCount: 1,
    frameCount: 2,
    values: new Float32Array(8),
    analog: { labels: ['a', 'b'], samplesPerFrame: 3, values: [1, 10, 2, 20, 3, 30, 4, 40, 5, 50, 6, 60] },
    groups: [
      {
        name: 'ANALOG',
        description: '',
        parameters: new Map([
          ['OFFSET', { name: 'OFFSET', description: '', type: 'int16', dimensions: [2], values: [1, -2] }],
          ['SCALE', floatParameter('SCALE', 2, 0.5)],
          ['GEN_SCALE', floatParameter('GEN_SCALE', 4)],
        ]),
      },
    ],
    ...changes,
  };
}

/** Where the data of two frames of one point and 20 analog values end: writers pad their last block, others do not. */
function file20End(bytes: Uint8Array): number {
  return readC3d(bytes).dataOffset + 2 * (4 + 20) * 4;
}

describe('reading analog data', () => {
  it.each(['intel', 'dec', 'mips'] as const)(
    '%s: values are taken apart and scaled, floats and integers',
    (processor) => {
      for (const numberFormat of ['float', 'int'] as const) {
        const file = readC3d(writeC3d(trial({ processor, numberFormat })));
        expect([...readAnalog(file, 0)]).toEqual([0, 8, 16, 24, 32, 40]);
        expect([...readAnalog(file, 1, { first: 1, count: 1 })]).toEqual([84, 104, 124]);
        expect([...meanAnalog(file)]).toEqual([20, 74]);
        expect([...meanAnalog(file, { first: 0, count: 1 })]).toEqual([8, 44]);
      }
    },
  );

  it('UNSIGNED integers and their offsets go up to 65535', () => {
    const groups = [
      {
        name: 'ANALOG',
        description: '',
        parameters: new Map([
          ['FORMAT', textParameter('FORMAT', 'UNSIGNED')],
          // 32768, stored in a word.
          ['OFFSET', { name: 'OFFSET', description: '', type: 'int16' as const, dimensions: [1], values: [-32768] }],
        ]),
      },
    ];
    // 65535 and 32767 as signed words.
    const analog = { labels: ['a'], samplesPerFrame: 1, values: [-1, 32767] };
    const file = readC3d(writeC3d(trial({ numberFormat: 'int', groups, analog })));
    expect([...readAnalog(file, 0)]).toEqual([32767, -1]);
    file.groups.get('ANALOG')!.parameters.delete('FORMAT');
    expect([...readAnalog(file, 0)]).toEqual([32767, 65535]);
  });

  it('what is not stated is 0 and 1', () => {
    const file = readC3d(writeC3d(trial()));
    file.groups.delete('ANALOG');
    expect([...readAnalog(file, 1)]).toEqual([10, 20, 30, 40, 50, 60]);
  });

  it('frames that are not there are not read, nor channels', () => {
    const file = readC3d(writeC3d(trial()));
    expect(readAnalog(file, 0, { first: -5, count: 100 }).length).toBe(6 * 1);
    expect(readAnalog(file, 0, { first: 7, count: 3 }).length).toBe(0);
    expect([...meanAnalog(file, { first: 7, count: 3 })]).toEqual([Number.NaN, Number.NaN]);
    expect(() => readAnalog(file, 2)).toThrow('Channel 2 asked for; the file has 2, counted from 0.');
  });

  it('a count of channels that does not go into the values of a frame makes no broken samples', () => {
    // 20 values a frame, 8 channels stated and no usable rates: 2.5 samples would run past the end of the file.
    const analog = {
      labels: Array.from({ length: 20 }, (_, i) => `c${i}`),
      samplesPerFrame: 1,
      values: new Array(40).fill(7),
    };
    const bytes = writeC3d(trial({ rateHz: null, groups: [], analog }));
    new DataView(bytes.buffer).setUint16(18, 0, true);
    const at = Buffer.from(bytes).indexOf('USED', Buffer.from(bytes).indexOf('LABELS'));
    new DataView(bytes.buffer).setInt16(at + 'USED'.length + 4, 8, true);
    const file = readC3d(bytes.subarray(0, file20End(bytes)));
    expect(file.analog).toMatchObject({ channels: 20, samplesPerFrame: 1 });
    expect([...meanAnalog(file)]).toEqual(new Array(20).fill(7));
  });

  it('more than 255 channels go on in SCALE2 and OFFSET2', () => {
    const labels = Array.from({ length: 300 }, (_, i) => `c${i}`);
    const ones = (count: number, value: number) => new Array<number>(count).fill(value);
    const groups = [
      {
        name: 'ANALOG',
        description: '',
        parameters: new Map([
          [
            'SCALE',
            { name: 'SCALE', description: '', type: 'float' as const, dimensions: [255], values: ones(255, 2) },
          ],
          [
            'SCALE2',
            { name: 'SCALE2', description: '', type: 'float' as const, dimensions: [45], values: ones(45, 3) },
          ],
        ]),
      },
    ];
    const analog = { labels, samplesPerFrame: 1, values: ones(600, 7) };
    const means = meanAnalog(readC3d(writeC3d(trial({ groups, analog }))));
    expect([means[254], means[255], means[299]]).toEqual([14, 21, 21]);
  });

  it('a sample that is no number leaves the mean to the others', () => {
    const values = [1, 10, Number.NaN, 20, 3, 30, 4, 40, 5, Number.POSITIVE_INFINITY, 6, 60];
    const file = readC3d(writeC3d(trial({ groups: [], analog: { labels: ['a', 'b'], samplesPerFrame: 3, values } })));
    expect([...meanAnalog(file)]).toEqual([(1 + 3 + 4 + 5 + 6) / 5, 160 / 5]);
  });
});
