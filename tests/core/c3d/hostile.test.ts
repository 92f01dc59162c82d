import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { C3dError } from '../../../src/core/c3d/c3d-error.ts';
import { type C3dFile, readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../../src/core/c3d/read-points.ts';
import { inspectTrial } from '../../../src/core/inspect-trial.ts';
import { nextField, patched, plainTrial, plainValues, valuesOffset, withWord } from './plain-trial.ts';

const plain = plainTrial();

/** Reads the file, or null where it is refused with a C3dError; any other error fails the test. */
function attempt(bytes: Uint8Array): C3dFile | null {
  try {
    inspectTrial(bytes, '');
    return readC3d(bytes);
  } catch (error) {
    if (error instanceof C3dError) return null;
    throw error;
  }
}

function error(bytes: Uint8Array): C3dError {
  try {
    readC3d(bytes);
  } catch (caught) {
    if (caught instanceof C3dError) return caught;
  }
  throw new Error('no C3dError');
}

describe('what is not C3D at all', () => {
  test('an empty file', () => {
    expect(error(new Uint8Array(0))).toMatchObject({ code: 'empty', byteOffset: 0, found: 'an empty file' });
  });

  test('another kind of file', () => {
    const text = new TextEncoder().encode('time,x,y,z\n'.repeat(200));
    expect(error(text)).toMatchObject({ code: 'not-c3d', byteOffset: 1, found: 'the byte 0x69' });
    expect(error(text).message).toBe(
      'Not readable as C3D at byte 1: found the byte 0x69, expected 0x50, the mark of a C3D file; ' +
        'check that this is the trial and export it as C3D.',
    );
  });

  test('a file with the mark by chance', () => {
    const bytes = new TextEncoder().encode(`\tPatient;${'x'.repeat(9000)}`);
    expect(error(bytes)).toMatchObject({ code: 'not-c3d', byteOffset: 16 });
  });

  test('a header without the rest', () => {
    expect(error(plain.subarray(0, 300))).toMatchObject({ code: 'too-short', byteOffset: 300 });
    expect(error(plain.subarray(0, 512))).toMatchObject({ code: 'too-short', byteOffset: 512 });
  });
});

describe('truncation', () => {
  test.each(['intel', 'dec', 'mips'] as const)('at every byte: whole frames only, and said so (%s)', (processor) => {
    const bytes = plainTrial({ processor, analog: { labels: ['plate z'], samplesPerFrame: 1, values: [1, 2, 3, 4] } });
    const { dataOffset, frameStride } = readC3d(bytes);
    const values = [...plainValues(3, 4)];
    for (let length = 0; length <= bytes.length; length++) {
      const file = attempt(bytes.subarray(0, length));
      if (length < 516) {
        expect(file).toBeNull();
        continue;
      }
      if (length < dataOffset) continue;
      const frames = Math.min(4, Math.floor((length - dataOffset) / frameStride));
      expect(file).toMatchObject({ frameCount: frames, truncated: frames < 4, pointCount: 3 });
      expect(file!.warnings.some(({ code }) => code === 'data-truncated')).toBe(frames < 4);
      expect([...readPoints(file!).values]).toEqual(values.slice(0, frames * 12));
    }
  });

  test('inside the parameters leaves what was read before, and no frame', () => {
    for (let length = 516; length < 1024; length++) {
      const file = attempt(plain.subarray(0, length));
      expect(file).toMatchObject({ frameCount: 0, truncated: true, pointCount: 3 });
    }
  });
});

describe('sizes that the file does not have', () => {
  test('claim no memory', () => {
    let hostile = withWord(withWord(plain, 2, 65535), valuesOffset(plain, 'USED'), 65535);
    hostile = withWord(withWord(hostile, 8, 65535), valuesOffset(plain, 'FRAMES'), 65535);
    const before = process.memoryUsage();
    const file = readC3d(hostile);
    expect(file).toMatchObject({ pointCount: 65535, frameCount: 0, truncated: true });
    expect(readPoints(file).values.length).toBe(0);
    const after = process.memoryUsage();
    expect(after.arrayBuffers - before.arrayBuffers).toBeLessThan(16e6);
  });

  test('a float frame count of 10^30 is cut to what is there', () => {
    const bytes = plainTrial({
      groups: [
        {
          name: 'POINT',
          description: '',
          parameters: new Map([
            ['LONG_FRAMES', { name: 'LONG_FRAMES', description: '', type: 'float', dimensions: [], values: [1e30] }],
          ]),
        },
      ],
    });
    expect(readC3d(bytes)).toMatchObject({ frameCount: 4, truncated: false });
  });

  test('a parameter of seven dimensions of 255 is passed over', () => {
    const type = nextField(plain, 'LABELS') + 2;
    const file = readC3d(patched(plain, type + 1, [7, 255, 255, 255, 255, 255, 255, 255]));
    expect(file.labels).toEqual([]);
    expect(file.warnings.map(({ code }) => code)).toEqual(['parameter-unreadable', 'labels-missing']);
  });

  test('empty strings by the million are passed over', () => {
    const type = nextField(plain, 'LABELS') + 2;
    expect(readC3d(patched(plain, type + 1, [4, 0, 255, 255, 255])).labels).toEqual([]);
  });

  test('many records that share the same bytes stay within the budget', () => {
    // Records one byte apart, each claiming 16 kB of strings.
    const bytes = new Uint8Array(512 * 600);
    bytes.set(plain.subarray(0, 512));
    for (let at = 516; at + 12 < 512 * 200; at += 12) bytes.set([1, 1, 0x41, 9, 0, 255, 2, 2, 128, 0, 0, 0], at);
    bytes.set([1, 0x50, 255, 84], 512);
    const parameters = [...(attempt(bytes)?.groups.values() ?? [])].flatMap((group) => [...group.parameters.values()]);
    let held = 0;
    for (const { values } of parameters)
      for (const value of values) held += typeof value === 'string' ? value.length : 8;
    // The records claim 130 MB between them.
    expect(held).toBeLessThan(4 * bytes.length);
  });
});

describe('next-offsets', () => {
  const lengths = [0, 1, 2, 3, 5, 127, 255, 256, 511, 512, 5000, 32767, -1, -2, -4, -20, -200, -512, -32768];
  test.each(lengths)('a next-offset of %i ends the walk or goes on, and keeps the points', (next) => {
    for (const name of ['POINT', 'USED', 'FRAMES', 'SCALE', 'RATE', 'UNITS', 'LABELS']) {
      const file = attempt(withWord(plain, nextField(plain, name), next & 0xffff));
      expect(file).toMatchObject({ pointCount: 3, frameCount: 4 });
      expect([...readPoints(file!).values]).toEqual([...plainValues(3, 4)]);
    }
  });
});

/** Bytes of a plain trial, a few of them replaced. */
function mutations(source: Uint8Array, end: number) {
  return fc
    .array(fc.tuple(fc.nat(end - 1), fc.constantFrom(0, 1, 2, 4, 84, 86, 127, 128, 254, 255)), {
      minLength: 1,
      maxLength: 24,
    })
    .map((changes) => changes.reduce((bytes, [at, value]) => patched(bytes, at, [value]), source));
}

describe.each(['intel', 'dec', 'mips'] as const)('random damage, %s', (processor) => {
  const analog = { labels: ['plate z'], samplesPerFrame: 1, values: [1, 2, 3, 4] };
  const source = plainTrial({ processor, numberFormat: 'int', analog });

  test('is refused or read within the file', () => {
    fc.assert(
      fc.property(mutations(source, 1024), (bytes) => {
        const file = attempt(bytes);
        if (file === null) return;
        const end = file.dataOffset + file.frameCount * file.frameStride;
        expect(file.frameCount === 0 || end <= bytes.length).toBe(true);
        expect(readPoints(file).values.length).toBe(file.frameCount * file.pointCount * 4);
        expect(file.warnings.every(({ message }) => message.length < 400)).toBe(true);
      }),
      { numRuns: 800 },
    );
  });
});

test('random bytes behind the mark are refused or read within the file', () => {
  fc.assert(
    fc.property(fc.uint8Array({ minLength: 516, maxLength: 3000 }), fc.nat(6), (bytes, block) => {
      bytes.set([block, 0x50]);
      const file = attempt(bytes);
      if (file !== null && file.frameCount > 0) {
        expect(file.dataOffset + file.frameCount * file.frameStride).toBeLessThanOrEqual(bytes.length);
      }
    }),
    { numRuns: 800 },
  );
});

test('names that mean something to the language are names like others', () => {
  const labels = ['__proto__', 'constructor', 'S1'];
  const file = readC3d(
    plainTrial({
      labels,
      groups: [
        {
          name: '__PROTO__',
          description: '',
          parameters: new Map([
            ['TOSTRING', { name: 'TOSTRING', description: '', type: 'char', dimensions: [4], values: ['evil'] }],
          ]),
        },
      ],
    }),
  );
  expect(file.labels).toEqual(labels);
  expect(file.groups.get('__PROTO__')?.parameters.get('TOSTRING')?.values).toEqual(['evil']);
  expect(Object.hasOwn(Object.prototype, 'TOSTRING')).toBe(false);
});
