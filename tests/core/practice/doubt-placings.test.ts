import { describe, expect, it } from 'vitest';
import { doubtPlacings } from '../../../src/core/practice/doubt-placings.ts';
import { placedByHand } from '../../support/ordinary-people.ts';
import { checkPositions } from '../../support/still-trial.ts';

describe('doubtPlacings', () => {
  const first = placedByHand(3);
  const report = (positions: typeof first) => checkPositions(positions);

  it('doubts markers that were left on', () => {
    const moved = new Map(
      [...first].map(([label, [x, y, z]]) => [label, [x + 20, y, z + 0.2] as [number, number, number]]),
    );
    expect(doubtPlacings([report(first), report(moved)])).toEqual([
      expect.stringMatching(/^Placings 1 and 2: most markers sit alike to 0\.0 mm, as if they had been left on/),
    ]);
  });

  it('doubts another person', () => {
    const taller = new Map(
      [...first].map(([label, [x, y, z]]) => [label, [x, y, z * 1.06] as [number, number, number]]),
    );
    expect(doubtPlacings([report(first), report(taller)]).join()).toContain('is it the same subject');
  });

  it('doubts nothing of markers that were all set anew', () => {
    let turn = 0;
    const anew = new Map(
      [...first].map(([label, [x, y, z]]) => {
        turn += 1;
        return [label, [x + 4 * Math.sin(turn * 7), y, z + 4 * Math.cos(turn * 5)] as [number, number, number]];
      }),
    );
    expect(doubtPlacings([report(first), report(anew)])).toEqual([]);
  });
});
