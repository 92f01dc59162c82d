import { describe, expect, test } from 'vitest';
import { wordParameter } from '../../../src/core/c3d/build-parameter.ts';
import { type C3dParameter, readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../../src/core/c3d/read-points.ts';
import {
  nextField,
  patched,
  plainTrial,
  plainValues,
  recordOffset,
  valuesOffset,
  withFloat,
  withoutParameter,
  withWord,
} from './plain-trial.ts';

const plain = plainTrial();
const plainPoints = [...plainValues(3, 4)];

function codes(bytes: Uint8Array): string[] {
  return readC3d(bytes).warnings.map(({ code }) => code);
}

function points(bytes: Uint8Array): number[] {
  return [...readPoints(readC3d(bytes)).values];
}

function pointParameter(parameter: Omit<C3dParameter, 'description'>): Uint8Array {
  const parameters = new Map([[parameter.name, { description: '', ...parameter }]]);
  return plainTrial({ groups: [{ name: 'POINT', description: '', parameters }] });
}

describe('where the sections lie', () => {
  test('parameters further back, other blocks in between', () => {
    const bytes = new Uint8Array(plain.length + 3 * 512);
    bytes.set(plain.subarray(0, 512));
    bytes.set(plain.subarray(512), 4 * 512);
    bytes[0] = 5;
    const moved = withWord(withWord(bytes, 16, 6), 3 * 512 + valuesOffset(plain, 'DATA_START'), 6);
    expect(points(moved)).toEqual(plainPoints);
    expect(codes(moved)).toEqual([]);
  });

  test('parameters behind the data', () => {
    const data = plain.subarray(1024);
    const bytes = new Uint8Array(plain.length);
    bytes.set(plain.subarray(0, 512));
    bytes.set(data, 512);
    bytes.set(plain.subarray(512, 1024), 512 + data.length);
    bytes[0] = 2 + data.length / 512;
    const moved = withWord(withWord(bytes, 16, 2), data.length + valuesOffset(plain, 'DATA_START'), 2);
    expect(points(moved)).toEqual(plainPoints);
  });

  test('a data start stated nowhere: right after the parameters', () => {
    const bytes = withWord(withoutParameter(plain, 'DATA_START'), 16, 0);
    expect(points(bytes)).toEqual(plainPoints);
    expect(codes(bytes)).toEqual(['data-start-missing']);
  });

  test('both data starts beyond the file: right after the parameters, since the data fill it', () => {
    const bytes = withWord(withWord(plain, 16, 99), valuesOffset(plain, 'DATA_START'), 88);
    expect(points(bytes)).toEqual(plainPoints);
    expect(codes(bytes)).toEqual(['data-start-disagrees']);
  });

  test('a wrong POINT:DATA_START, the header right', () => {
    const bytes = withWord(plain, valuesOffset(plain, 'DATA_START'), 4);
    expect(points(bytes)).toEqual(plainPoints);
    expect(codes(bytes)).toEqual(['data-start-disagrees']);
  });

  test('the parameter header may start with any two bytes', () => {
    expect(points(patched(plain, 512, [0x7a, 0xff]))).toEqual(plainPoints);
  });

  test('a block count too small for the parameters', () => {
    expect(points(patched(plain, 514, [0]))).toEqual(plainPoints);
    expect(codes(patched(plain, 514, [0]))).toEqual([]);
  });
});

describe('frame counts', () => {
  const frameCount = 40_000;
  const long = plainTrial({
    labels: ['S1'],
    pointCount: 1,
    frameCount,
    values: plainValues(1, frameCount),
    numberFormat: 'int',
    scale: 200,
  });

  test('over 32767 in a word that older software writes signed', () => {
    expect(readC3d(long)).toMatchObject({ frameCount, warnings: [] });
  });

  test('as a float', () => {
    const bytes = pointParameter({ name: 'FRAMES', type: 'float', dimensions: [], values: [4] });
    expect(readC3d(bytes)).toMatchObject({ frameCount: 4, warnings: [] });
  });

  test('a fraction is no count: the header is used', () => {
    const bytes = pointParameter({ name: 'FRAMES', type: 'float', dimensions: [], values: [4.5] });
    expect(readC3d(bytes).frameCount).toBe(4);
    expect(codes(bytes)).toEqual(['frame-count-missing']);
  });

  test('stated nowhere: no frames', () => {
    const bytes = withWord(withWord(withoutParameter(plain, 'FRAMES'), 6, 9), 8, 2);
    expect(readC3d(bytes)).toMatchObject({ frameCount: 0, pointCount: 3, truncated: false });
    expect(codes(bytes)).toEqual(['frame-count-missing']);
  });

  test('a small one in the header does not hide that the file was cut', () => {
    const bytes = plainTrial({ frameCount: 400, values: plainValues(3, 400) });
    const cut = withWord(bytes, 8, 1).subarray(0, bytes.length / 2);
    expect(readC3d(cut)).toMatchObject({ truncated: true });
    expect(readC3d(cut).frameCount).toBeGreaterThan(150);
  });

  test('data behind the points belong to something else', () => {
    const bytes = new Uint8Array(plain.length + 5000).fill(7);
    bytes.set(plain);
    expect(points(withWord(bytes, 8, 60))).toEqual(plainPoints);
  });

  test('of the whole capture in the header, of the cut in POINT:FRAMES', () => {
    const bytes = withWord(withWord(plain, 6, 101), 8, 300);
    expect(readC3d(bytes)).toMatchObject({ frameCount: 4, firstFrame: 101, truncated: false });
    expect(codes(bytes)).toEqual(['frame-count-disagrees']);
  });

  test('a wrong POINT:FRAMES, the header fitting the file', () => {
    const values = plainValues(3, 40);
    const bytes = plainTrial({ frameCount: 40, values });
    const wrong = withWord(bytes, valuesOffset(bytes, 'FRAMES'), 12);
    expect(readC3d(wrong)).toMatchObject({ frameCount: 40, truncated: false });
    expect(codes(wrong)).toEqual(['frame-count-disagrees']);
  });

  test('TRIAL fields count 65536 for each step of the high word', () => {
    const many = 70_000;
    const bytes = plainTrial({ labels: ['S1'], pointCount: 1, frameCount: many, values: new Float32Array(many * 4) });
    const trialOnly = withoutParameter(bytes, 'LONG_FRAMES');
    expect(readC3d(trialOnly)).toMatchObject({ frameCount: many, firstFrame: 1, warnings: [] });
    expect([...bytes.subarray(valuesOffset(bytes, 'ACTUAL_END_FIELD')).subarray(0, 4)]).toEqual([0x70, 0x11, 1, 0]);
  });
});

describe('first frame', () => {
  const trial = { name: 'TRIAL', description: '', parameters: new Map<string, C3dParameter>() };
  trial.parameters.set('ACTUAL_START_FIELD', wordParameter('ACTUAL_START_FIELD', 177, 1));

  test('of TRIAL where the header has none, or only the low word', () => {
    const start = 177 + 65536;
    expect(readC3d(plainTrial({ firstFrame: 0, groups: [trial] })).firstFrame).toBe(start);
    expect(readC3d(plainTrial({ firstFrame: 177, groups: [trial] })).firstFrame).toBe(start);
    expect(codes(plainTrial({ firstFrame: 177, groups: [trial] }))).toEqual([]);
  });

  test('of the header where TRIAL says something else', () => {
    expect(readC3d(plainTrial({ firstFrame: 12, groups: [trial] })).firstFrame).toBe(12);
    expect(codes(plainTrial({ firstFrame: 12, groups: [trial] }))).toEqual(['first-frame-disagrees']);
  });
});

describe('numbers of points and formats', () => {
  test('a wrong POINT:USED, the header fitting the file', () => {
    const bytes = withWord(plain, valuesOffset(plain, 'USED'), 30);
    expect(points(bytes)).toEqual(plainPoints);
    expect(codes(bytes)).toEqual(['point-count-disagrees']);
  });

  test('integers whose header scale says float', () => {
    const values = plainValues(3, 40);
    const bytes = withFloat(plainTrial({ frameCount: 40, values, numberFormat: 'int' }), 12, -0.5);
    expect(readC3d(bytes)).toMatchObject({ numberFormat: 'int', scale: 0.5 });
    expect(points(bytes)).toEqual([...values]);
  });

  test("integers whose POINT:SCALE says float: the size of a step is the header's", () => {
    const values = plainValues(3, 40);
    const bytes = plainTrial({ frameCount: 40, values, numberFormat: 'int' });
    const odd = withFloat(bytes, valuesOffset(bytes, 'SCALE'), -1);
    expect(readC3d(odd)).toMatchObject({ numberFormat: 'int', scale: 0.5 });
    expect(points(odd)).toEqual([...values]);
    expect(codes(odd)).toEqual(['number-format-disagrees', 'scale-disagrees']);
  });

  test.each([0, Number.NaN, Number.POSITIVE_INFINITY])('a POINT:SCALE of %d is none', (scale) => {
    const bytes = withFloat(plain, valuesOffset(plain, 'SCALE'), scale);
    expect(readC3d(bytes).scale).toBe(-0.5);
    expect(codes(bytes)).toEqual(['scale-missing']);
  });

  test('no scale anywhere: the format that fills the file', () => {
    const values = plainValues(3, 40);
    const bytes = withoutParameter(withFloat(plainTrial({ frameCount: 40, values }), 12, 0), 'SCALE');
    expect(readC3d(bytes)).toMatchObject({ numberFormat: 'float', scale: -1 });
    expect(points(bytes)).toEqual([...values]);
  });

  test.each([0, -50, Number.NaN])('a POINT:RATE of %d is none', (rateHz) => {
    const bytes = withFloat(plain, valuesOffset(plain, 'RATE'), rateHz);
    expect(readC3d(bytes).rateHz).toBe(100);
    expect(codes(bytes)).toEqual(['rate-missing']);
    expect(readC3d(withFloat(bytes, 20, rateHz)).rateHz).toBeNull();
  });

  test('an unknown processor byte in a MIPS file: the byte order is judged from the header', () => {
    const bytes = patched(plainTrial({ processor: 'mips' }), 515, [0]);
    expect(readC3d(bytes).processor).toBe('mips');
    expect(points(bytes)).toEqual(plainPoints);
  });
});

describe('parameter records', () => {
  test('a locked group and a locked parameter (negative name length)', () => {
    const locked = patched(plain, recordOffset(plain, 'UNITS'), [256 - 5]);
    const both = patched(locked, recordOffset(plain, 'POINT'), [256 - 5]);
    expect(readC3d(both)).toMatchObject({ units: 'mm', labels: ['R_ASIS', 'L_ASIS', 'S1'], warnings: [] });
  });

  test('a description length left out', () => {
    // Drop the one byte of UNITS's empty description and shorten its next-offset to match.
    const end = valuesOffset(plain, 'UNITS') + 2;
    const section = [...plain.subarray(512, 1024)];
    section.splice(end - 512, 1);
    section.push(0);
    const next = nextField(plain, 'UNITS');
    const bytes = withWord(patched(plain, 512, section), next, plain[next]! - 1);
    expect(readC3d(bytes)).toMatchObject({ units: 'mm', labels: ['R_ASIS', 'L_ASIS', 'S1'], warnings: [] });
    expect(readC3d(bytes).groups.get('POINT')?.parameters.get('UNITS')?.description).toBe('');
  });

  test('a record of group 0 is passed over', () => {
    const bytes = patched(plain, recordOffset(plain, 'UNITS') + 1, [0]);
    expect(readC3d(bytes)).toMatchObject({ units: null, labels: ['R_ASIS', 'L_ASIS', 'S1'] });
  });

  test('a parameter before its group, and under a group without a record', () => {
    const bytes = patched(plain, recordOffset(plain, 'RATE') + 1, [100]);
    expect(readC3d(bytes).groups.get('#100')?.parameters.get('RATE')?.values).toEqual([100]);
    expect(readC3d(bytes).rateHz).toBe(100);
  });

  test('two group records of one name join', () => {
    const extra = { name: 'POINX', description: '', parameters: new Map() };
    extra.parameters.set('MORE', { name: 'MORE', description: '', type: 'int16', dimensions: [], values: [7] });
    const bytes = plainTrial({ groups: [extra] });
    const joined = patched(bytes, recordOffset(bytes, 'POINX') + 6, [0x54]);
    expect(readC3d(joined)).toMatchObject({ labels: ['R_ASIS', 'L_ASIS', 'S1'], warnings: [] });
    expect(readC3d(joined).groups.get('POINT')?.parameters.get('MORE')?.values).toEqual([7]);
  });

  test('lower-case names are found', () => {
    const lower = [...'labels'].map((letter) => letter.charCodeAt(0));
    expect(readC3d(patched(plain, recordOffset(plain, 'LABELS') + 2, lower)).labels).toEqual([
      'R_ASIS',
      'L_ASIS',
      'S1',
    ]);
  });

  test('text ends at a NUL and may be Latin-1', () => {
    const at = valuesOffset(plain, 'LABELS');
    const bytes = patched(plain, at, [0x53, 0x31, 0xe4, 0, 0x78, 0x79]);
    expect(readC3d(bytes).labels).toEqual(['S1\u00e4', 'L_ASIS', 'S1']);
  });

  test('surplus labels, blank or repeated, are only surplus', () => {
    expect(codes(plainTrial({ labels: ['R_ASIS', 'L_ASIS', 'S1', '', 'S1', ''] }))).toEqual([
      'labels-more-than-points',
    ]);
  });

  test('screen axes and units, absent or blank', () => {
    expect(readC3d(plainTrial({ screen: { x: '+Y', y: '+Z' } })).screen).toEqual({ x: '+Y', y: '+Z' });
    expect(readC3d(plain).screen).toEqual({ x: null, y: null });
    expect(readC3d(plainTrial({ units: '    ' })).units).toBeNull();
  });
});

describe('analog data', () => {
  const analog = {
    labels: ['plate x', 'plate z'],
    samplesPerFrame: 3,
    values: Float32Array.from({ length: 24 }, (_, i) => i),
  };

  test('are passed over, and can be found', () => {
    const bytes = plainTrial({ analog });
    const file = readC3d(bytes);
    expect(file.analog).toEqual({ channels: 2, rateHz: 300, samplesPerFrame: 3 });
    const found: number[] = [];
    for (let frame = 0; frame < file.frameCount; frame++) {
      const at = file.dataOffset + frame * file.frameStride + file.pointCount * 16;
      found.push(...new Float32Array(bytes.slice(at, at + file.analogPerFrame * 4).buffer));
    }
    expect(found).toEqual([...analog.values]);
  });

  test('samples a frame missing in the header: ANALOG:RATE over the frame rate', () => {
    expect(readC3d(withWord(plainTrial({ analog }), 18, 0)).analog).toEqual({
      channels: 2,
      rateHz: 300,
      samplesPerFrame: 3,
    });
  });

  test('samples a frame that do not divide the values are not believed', () => {
    expect(readC3d(withWord(plainTrial({ analog }), 18, 4)).analog).toEqual({
      channels: 2,
      rateHz: 300,
      samplesPerFrame: 3,
    });
  });

  test('rates missing too: the values over ANALOG:USED', () => {
    const bytes = withWord(plainTrial({ analog, rateHz: null }), 18, 0);
    expect(readC3d(bytes).analog).toEqual({ channels: 2, rateHz: null, samplesPerFrame: 3 });
  });
});
