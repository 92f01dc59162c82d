import { closeSync, openSync, readSync } from 'node:fs';

/**
 * The floor: what the least program does that knows beforehand where the floats lie and trusts every one of them. It
 * reads no header, asks no validity, and adds up x, y and z of every point in double precision, frame after frame.
 */
export function barePassFromDisk(path: string, dataOffset: number, pointCount: number, frameCount: number) {
  const buffer = new Float32Array((1 << 18) / 4);
  const frameBytes = pointCount * 16;
  const perRead = Math.floor(buffer.byteLength / frameBytes);
  const sums = new Float64Array(pointCount * 3);
  const descriptor = openSync(path, 'r');
  for (let frame = 0; frame < frameCount; frame += perRead) {
    const frames = Math.min(perRead, frameCount - frame);
    readSync(descriptor, buffer, 0, frames * frameBytes, dataOffset + frame * frameBytes);
    addFrames(sums, buffer, pointCount, frames);
  }
  closeSync(descriptor);
  return sums.map((sum) => sum / frameCount);
}

/** The same over bytes in memory. */
export function barePassInMemory(bytes: Uint8Array, dataOffset: number, pointCount: number, frameCount: number) {
  const values = new Float32Array(bytes.buffer, bytes.byteOffset + dataOffset, pointCount * frameCount * 4);
  const sums = new Float64Array(pointCount * 3);
  addFrames(sums, values, pointCount, frameCount);
  return sums.map((sum) => sum / frameCount);
}

function addFrames(sums: Float64Array, values: Float32Array, pointCount: number, frames: number): void {
  for (let frame = 0, at = 0; frame < frames; frame++) {
    for (let sum = 0; sum < pointCount * 3; sum += 3, at += 4) {
      sums[sum]! += values[at]!;
      sums[sum + 1]! += values[at + 1]!;
      sums[sum + 2]! += values[at + 2]!;
    }
  }
}
