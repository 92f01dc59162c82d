import { expect, test } from 'vitest';
import type { Vec3 } from '../../src/core/geometry/vector.ts';
import { commandFolder } from '../fuzz/command-case.ts';
import { judgeFigures } from '../fuzz/judge-output.ts';
import { runCase } from '../fuzz/run-cases.ts';
import { measuredByHand, sheetOf } from '../support/measured-by-hand.ts';
import { symmetricAdult } from '../support/ordinary-people.ts';
import { checkPositions } from '../support/still-trial.ts';

const adult = symmetricAdult();

/** Every marker keeps its height; all lie in one slanting line, so that no segment but the pelvis has a front. */
function inOneLine(): typeof adult {
  return new Map([...adult].map(([label, [, , up]]): [string, Vec3] => [label, [0, 2041 - up, up]]));
}

// Markers had no direction in which they could be off, and the spread of each comparison with a reading was NaN.
test('where segments have no axes the comparison with the sheet has no figure that is none', () => {
  const report = checkPositions(inOneLine(), {}, sheetOf(measuredByHand(adult, 1700)));
  expect(report.sheetAgainstTrial!.compared.length).toBeGreaterThan(0);
  expect(() => judgeFigures(report)).not.toThrow();
});

// With the one direction that was left a marker was put back, and its other way was told as no number. Found by fuzzing;
// the damaged file is made as it was then.
test('no step tells a way along axes that are not there', async () => {
  const folder = commandFolder();
  try {
    await expect(runCase('trial', 31, 641, folder.path)).resolves.toBe('not-assessable');
  } finally {
    folder.remove();
  }
});
