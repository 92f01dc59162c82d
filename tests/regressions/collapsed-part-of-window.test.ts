import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readC3d } from '../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../src/core/c3d/read-points.ts';
import { writeC3d } from '../../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../../src/core/check-trial.ts';
import { parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { emptySession } from '../../src/core/session/session.ts';

const read = (path: string) => readFileSync(new URL(`../../${path}`, import.meta.url));
const wands22 = parseMarkerSet(read('shared/marker-sets/lower-limb-wands-22.json').toString(), '0'.repeat(64));

/** The sample with the wand turned, eight frames of it; in the last one every point lies at zero, as in an empty frame. */
function withEmptyFrame(isEmpty: boolean): Uint8Array {
  const file = readC3d(read('sample-trials/wand-forward.c3d'));
  const { pointCount } = file;
  const values = readPoints(file).values.slice(0, 8 * pointCount * 4);
  if (isEmpty) values.fill(0, 7 * pointCount * 4);
  const { labels, rateHz, units } = file;
  return writeC3d({ labels, rateHz, units, pointCount, frameCount: 8, values, screen: { x: '+X', y: '+Z' } });
}

// A part of the window in which all markers coincide made the uncertainty of rules NaN, and every comparison with NaN
// is false: what failed was called borderline.
test('a frame in which all points coincide leaves no rule without an uncertainty, and failures fail', () => {
  const check = (bytes: Uint8Array) => checkTrial(bytes, wands22, emptySession, { path: 'trial.c3d', sha256: '' });
  const report = check(withEmptyFrame(true));
  expect(report.rules.filter(({ uncertainty }) => Number.isNaN(uncertainty))).toEqual([]);
  const failing = check(withEmptyFrame(false)).rules.filter(({ status }) => status === 'fail');
  expect(failing.length).toBeGreaterThan(0);
  expect(report.rules.filter(({ status }) => status === 'fail').map(({ id }) => id)).toEqual(
    failing.map(({ id }) => id),
  );
});
