import fc from 'fast-check';
import { expect, test } from 'vitest';
import { C3dError } from '../../../src/core/c3d/c3d-error.ts';
import { C3D_HEAD_BYTES, describeC3d, readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { patched, plainTrial, recordOffset } from './plain-trial.ts';

/** Larger than a head, its parameter section in block `block`, with what a careless or hostile writer may leave there. */
function longFile(
  block: number,
  blocks: number,
  dataBlock: number,
  changes: readonly (readonly number[])[],
): Uint8Array {
  const plain = plainTrial();
  const bytes = new Uint8Array(C3D_HEAD_BYTES + 300_000).fill(0x21);
  bytes.set(plain.subarray(0, 512));
  bytes.set(plain.subarray(512, 1536), (block - 1) * 512);
  bytes[0] = block;
  bytes[(block - 1) * 512 + 2] = blocks;
  bytes[16] = dataBlock & 0xff;
  bytes[17] = dataBlock >> 8;
  for (const [at, value] of changes) bytes[(block - 1) * 512 + at!] = value!;
  return bytes;
}

function outcome(read: () => object): object {
  try {
    const { bytes: _, ...description } = read() as { bytes?: Uint8Array };
    return description;
  } catch (error) {
    if (error instanceof C3dError) return { code: error.code, message: error.message };
    throw error;
  }
}

test('a head of a megabyte decides as the whole file does', () => {
  const change = fc.tuple(fc.integer({ min: 0, max: 1023 }), fc.integer({ min: 0, max: 255 }));
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 255 }).map((block) => Math.max(2, block)),
      fc.integer({ min: 0, max: 255 }),
      fc.integer({ min: 0, max: 65535 }),
      fc.array(change, { maxLength: 12 }),
      (block, blocks, dataBlock, changes) => {
        const bytes = longFile(block, blocks, dataBlock, changes);
        expect(outcome(() => describeC3d(bytes.subarray(0, C3D_HEAD_BYTES), bytes.length))).toEqual(
          outcome(() => readC3d(bytes)),
        );
      },
    ),
    { numRuns: 60 },
  );
});

test('a parameter that claims more than a head holds uses up the same budget', () => {
  const plain = plainTrial();
  const at = recordOffset(plain, 'UNITS') - 512 + 2 + 'UNITS'.length + 2;
  // Type char, seven dimensions of 255: beyond the head and beyond the file; two of 255 and one of 20: only the former.
  for (const dimensions of [
    [7, 255, 255, 255, 255, 255, 255, 255],
    [3, 255, 255, 20],
  ]) {
    const changes = [...dimensions.entries()].map(([index, value]) => [at + 1 + index, value]);
    const bytes = longFile(2, 255, 1500, changes);
    const whole = outcome(() => readC3d(bytes));
    expect(outcome(() => describeC3d(bytes.subarray(0, C3D_HEAD_BYTES), bytes.length))).toEqual(whole);
    expect(whole).toMatchObject({ units: null });
  }
});

test('less of the file than can decide is refused', () => {
  const bytes = patched(new Uint8Array(2000), 1, [0x50]);
  expect(() => describeC3d(bytes.subarray(0, 1999), 2000)).toThrow(RangeError);
});
