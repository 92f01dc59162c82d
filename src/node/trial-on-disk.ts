import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import { C3D_HEAD_BYTES, type C3dDescription, describeC3d } from '../core/c3d/read-c3d.ts';
import { type BlockVisitor, createBlockWalker, type StridedBlockVisitor } from '../core/c3d/read-points.ts';
import { describeSystemError } from './describe-system-error.ts';
import { InputError } from './input-error.ts';

/** One read, or one block where that is more: small enough to stay in the processor's cache until it is visited. */
const READ_BYTES = 1 << 18;

/**
 * Opens a trial of any length and describes it from its first megabyte; the points are read when they are walked
 * through, a buffer of a quarter of a megabyte at a time (or one block, where that is more). Close it in the end.
 * @throws {C3dError} as readC3d.
 * @throws {InputError} where it cannot be opened or is no file that can be read from the middle, such as a pipe.
 */
export function openTrialFile(path: string): TrialOnDisk {
  const descriptor = reading(() => openSync(path, 'r'));
  try {
    const status = reading(() => fstatSync(descriptor));
    if (!status.isFile()) {
      throw new InputError('Cannot read the trial: it is not an ordinary file', 'save it to disk and name that file');
    }
    const head = new Uint8Array(Math.min(status.size, C3D_HEAD_BYTES));
    readWhole(descriptor, head, head.byteLength, 0);
    return new TrialOnDisk(describeC3d(head, status.size), descriptor);
  } catch (error) {
    closeSync(descriptor);
    throw error;
  }
}

/** A trial whose points stay on disk. The walks are those of read-points.ts and give the same values. */
export class TrialOnDisk {
  readonly description: C3dDescription;
  readonly #descriptor: number;

  /** @param descriptor of the open file; closed by `close` */
  constructor(description: C3dDescription, descriptor: number) {
    this.description = description;
    this.#descriptor = descriptor;
  }

  /** @throws {InputError} where the file cannot be read to the end it had when it was opened. */
  forEachPointBlock(framesPerBlock: number, visit: BlockVisitor): void {
    this.#walk(framesPerBlock, 'packed', (values, _stride, first, count) => visit(values, first, count));
  }

  /** @throws {InputError} as forEachPointBlock. */
  forEachStridedBlock(framesPerBlock: number, visit: StridedBlockVisitor): void {
    this.#walk(framesPerBlock, 'strided', visit);
  }

  close(): void {
    closeSync(this.#descriptor);
  }

  #walk(framesPerBlock: number, frames: 'packed' | 'strided', visit: StridedBlockVisitor): void {
    const { dataOffset, frameCount, frameStride } = this.description;
    if (frameCount === 0 || frameStride === 0) return;
    const blockFrames = Math.min(Math.floor(framesPerBlock), frameCount);
    const framesPerRead = blockFrames * Math.max(1, Math.floor(READ_BYTES / frameStride / blockFrames));
    const buffer = new Uint8Array(framesPerRead * frameStride);
    const inBuffer = { ...this.description, bytes: buffer, dataOffset: 0, frameCount: framesPerRead };
    const walk = createBlockWalker(inBuffer, framesPerBlock, frames);
    for (let first = 0; first < frameCount; first += framesPerRead) {
      const count = Math.min(framesPerRead, frameCount - first);
      readWhole(this.#descriptor, buffer, count * frameStride, dataOffset + first * frameStride);
      walk(count, (values, stride, firstInBuffer, framesInBlock) => {
        visit(values, stride, first + firstInBuffer, framesInBlock);
      });
    }
  }
}

/** Fills the start of `buffer`; a read may bring less than was asked for. */
function readWhole(descriptor: number, buffer: Uint8Array, byteLength: number, position: number): void {
  for (let filled = 0; filled < byteLength; ) {
    const at = filled;
    const bytesRead = reading(() => readSync(descriptor, buffer, at, byteLength - at, position + at));
    if (bytesRead === 0) {
      throw new InputError(
        `Cannot read the trial: it ends at byte ${position + at}, expected ${byteLength - at} more`,
        'wait until it is fully written and try again',
      );
    }
    filled += bytesRead;
  }
}

function reading<Result>(read: () => Result): Result {
  try {
    return read();
  } catch (error) {
    throw describeSystemError('Cannot read the trial', error);
  }
}
