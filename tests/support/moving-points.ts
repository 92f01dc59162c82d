import { type C3dFile, readC3d } from '../../src/core/c3d/read-c3d.ts';
import { type C3dContents, writeC3d } from '../../src/core/c3d/write-c3d.ts';

/** Where a point is in a frame (from 0), in the file's units; null where no camera sees it. */
export type Path = (frame: number) => readonly [number, number, number] | null;

/** A trial of points that go where they are told, one label each. */
export function movingTrial(paths: readonly Path[], frameCount: number, contents: Partial<C3dContents> = {}): C3dFile {
  const values = new Float32Array(frameCount * paths.length * 4);
  for (let frame = 0; frame < frameCount; frame += 1) {
    paths.forEach((path, point) => {
      const at = path(frame);
      values.set(at === null ? [0, 0, 0, -1] : [...at, 0], (frame * paths.length + point) * 4);
    });
  }
  const labels = paths.map((_, index) => `P${index}`);
  return readC3d(
    writeC3d({ rateHz: 100, units: 'mm', labels, pointCount: paths.length, frameCount, values, ...contents }),
  );
}
