import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { C3dError } from '../../src/core/c3d/c3d-error.ts';
import { readC3d } from '../../src/core/c3d/read-c3d.ts';
import { forEachPointBlock, forEachStridedBlock } from '../../src/core/c3d/read-points.ts';
import { writeC3d } from '../../src/core/c3d/write-c3d.ts';
import { InputError } from '../../src/node/input-error.ts';
import { sha256Of } from '../../src/node/sha256.ts';
import { openTrialFile } from '../../src/node/trial-on-disk.ts';

let folder: string;
let path: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
  path = join(folder, 'trial.c3d');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const points = { pointCount: 5, frameCount: 9001, labels: ['C7', 'S1', 'R_LE', 'L_LE', 'R_GT'] };
const values = Float32Array.from({ length: 5 * 9001 * 4 }, (_, index) => (index * 7919) % 4001);
const analog = { labels: ['plate'], samplesPerFrame: 1, values: new Float32Array(9001).fill(99) };

/** Every call of a visitor, its values by their hash: comparing millions one by one takes long. */
function recorder() {
  const calls: unknown[][] = [];
  const visit = (block: Float32Array, ...rest: number[]) =>
    void calls.push([sha256Of(new Uint8Array(block.slice().buffer)), ...rest]);
  return { calls, visit };
}

const variants = (['intel', 'dec', 'mips'] as const).flatMap((processor) =>
  (['float', 'int'] as const).flatMap((numberFormat) =>
    [false, true].map((withAnalog) => ({ processor, numberFormat, withAnalog })),
  ),
);

describe.each(variants)('$processor $numberFormat, analog $withAnalog', ({ processor, numberFormat, withAnalog }) => {
  const contents = { rateHz: 100, units: 'mm', ...points, values, processor, numberFormat, scale: 1 };
  const bytes = writeC3d({ ...contents, ...(withAnalog ? { analog } : {}) });

  // Blocks smaller than a read, one that does not divide it, larger than a read, larger than the file.
  it.each([1000, 1001, 5000, 100_000])('gives the same blocks of %i frames as the file in memory', (frames) => {
    writeFileSync(path, bytes);
    const trial = openTrialFile(path);
    const { bytes: _, ...description } = readC3d(bytes);
    expect(trial.description).toEqual(description);

    const [packed, packedExpected, strided, stridedExpected] = [recorder(), recorder(), recorder(), recorder()];
    trial.forEachPointBlock(frames, packed.visit);
    forEachPointBlock(readC3d(bytes), frames, packedExpected.visit);
    expect(packed.calls).toEqual(packedExpected.calls);
    trial.forEachStridedBlock(frames, strided.visit);
    forEachStridedBlock(readC3d(bytes), frames, stridedExpected.visit);
    expect(strided.calls).toEqual(stridedExpected.calls);
    trial.close();
  });
});

describe('a file that cannot be streamed', () => {
  const contents = { rateHz: 100, units: 'mm', ...points, values };

  it('says that it shrank while it was open, and where', () => {
    writeFileSync(path, writeC3d(contents));
    const trial = openTrialFile(path);
    truncateSync(path, 200_000);
    expect(() => trial.forEachPointBlock(100, () => {})).toThrow(
      /^Cannot read the trial: it ends at byte 200000, expected \d+ more; wait until it is fully written and try again\.$/,
    );
    trial.close();
  });

  it('reads one that was cut off before to where it ends, as in memory', () => {
    const bytes = writeC3d(contents).subarray(0, 200_000);
    writeFileSync(path, bytes);
    const trial = openTrialFile(path);
    expect(trial.description.truncated).toBe(true);
    let frames = 0;
    trial.forEachPointBlock(100, (_values, _first, count) => {
      frames += count;
    });
    expect(frames).toBe(readC3d(bytes).frameCount);
    trial.close();
  });

  it('refuses a folder, a device, nothing, an empty file and text, each in one sentence', () => {
    expect(() => openTrialFile(folder)).toThrow(InputError);
    expect(() => openTrialFile('/dev/null')).toThrow('it is not an ordinary file; save it to disk');
    expect(() => openTrialFile(join(folder, 'none'))).toThrow('there is no such file or folder');
    writeFileSync(path, '');
    expect(() => openTrialFile(path)).toThrow(C3dError);
    writeFileSync(path, 'x,y,z\n'.repeat(100));
    expect(() => openTrialFile(path)).toThrow(C3dError);
  });

  it('refuses frames without a number', () => {
    writeFileSync(path, writeC3d(contents));
    const trial = openTrialFile(path);
    expect(() => trial.forEachPointBlock(0, () => {})).toThrow(RangeError);
    expect(() => trial.forEachPointBlock(Number.NaN, () => {})).toThrow(RangeError);
    trial.close();
  });
});
