import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type C3dFile, readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../../src/core/c3d/read-points.ts';
import { plateLoads } from '../../../src/core/force-plates/plate-loads.ts';
import { readPlates } from '../../../src/core/force-plates/read-plates.ts';
import type { Vec3 } from '../../../src/core/geometry/vector.ts';

const samples = new URL('../../../../shared/c3d-samples/', import.meta.url);
const up: Vec3 = [0, 0, 1];
const floorMm = 150;

/** For each plate: the largest upward force, and the distances of its centre of pressure to the nearest low marker. */
function walkOver(file: C3dFile) {
  const { plates } = readPlates(file);
  const { values, pointCount, frameCount } = readPoints(file);
  const found = plates.map(() => ({ largestN: 0, awayMm: [] as number[] }));
  for (let frame = 12; frame < frameCount; frame++) {
    const low: [number, number][] = [];
    for (let at = frame * pointCount * 4; at < (frame + 1) * pointCount * 4; at += 4) {
      if (values[at + 3]! >= 0 && values[at + 2]! < floorMm) low.push([values[at]!, values[at + 1]!]);
    }
    const question = { run: { first: frame, count: 1 }, up, millimetresPerUnit: 1, feet: [] };
    plateLoads(file, plates, question).forEach((load, i) => {
      if (typeof load === 'string') throw new Error(load);
      found[i]!.largestN = Math.max(found[i]!.largestN, load.upwardN);
      if (load.centreMm === null || load.upwardN < 200 || low.length === 0) return;
      const [x, y] = load.centreMm;
      found[i]!.awayMm.push(Math.min(...low.map(([lowX, lowY]) => Math.hypot(x - lowX, y - lowY))));
    });
  }
  return found;
}

/**
 * People who walk over plates in public files: nothing presses where no foot is, so that the centre of pressure stays
 * within a foot's length of some marker on a foot, and nobody weighs less than a child or more than two adults.
 */
describe.skipIf(!existsSync(samples) && process.env.CI !== 'true')('plates of public files', () => {
  it.each([
    ['force-plates/type-2', 2],
    ['force-plates/type-4', 1],
    ['six-encodings/intel-float', 2],
    ['six-encodings/dec-int', 2],
    ['odd-layout/orphan-group', 1],
    ['odd-layout/header-point-count-wrong', 3],
  ])('%s: pressed where the feet are', (name, plates) => {
    const found = walkOver(readC3d(readFileSync(new URL(`${name}.c3d`, samples))));
    expect(found.length).toBe(plates);
    for (const { largestN, awayMm } of found) {
      expect(awayMm.length).toBeGreaterThan(5);
      expect(Math.max(...awayMm)).toBeLessThan(80);
      expect(largestN).toBeGreaterThan(250);
      expect(largestN).toBeLessThan(1500);
    }
  });

  it('six-encodings: the same loads from all six', () => {
    const loads = ['intel', 'dec', 'mips'].flatMap((processor) =>
      ['float', 'int'].map((format) => {
        const file = readC3d(readFileSync(new URL(`six-encodings/${processor}-${format}.c3d`, samples)));
        const question = { run: { first: 100, count: 50 }, up, millimetresPerUnit: 1, feet: [] };
        return plateLoads(file, readPlates(file).plates, question).map((load) =>
          typeof load === 'string' ? load : [...load.forceN, ...(load.centreMm ?? [])].map((value) => value.toFixed(2)),
        );
      }),
    );
    for (const other of loads) expect(other).toEqual(loads[0]);
  });
});
