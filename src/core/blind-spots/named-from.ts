import type { BodyModel } from '../decision/body-model.ts';
import { screenSingles } from '../decision/explanations.ts';
import type { Displacement } from './displacement.ts';
import { furthestMm } from './fails-from.ts';
import { normalDraws } from './normal-draws.ts';

const people = 200;
const often = 0.9;

/**
 * Answers for a displacement the smallest size, in whole mm, at which the displaced marker (of a pair, either) would be
 * named before all others on nine in ten well-marked people; null where that takes more than 60 mm.
 *
 * Among `people` draws of the residuals of well-marked people, with the displacement added through the linear model, the
 * explanations with one displaced marker are compared, as they are when a trial is weighed. That nine in ten holds from
 * some size on is taken for granted.
 */
export function namedFrom({
  whitened,
  ways,
  varianceMm2,
  body,
}: BodyModel): (displacement: Displacement) => number | null {
  const { rules, columns, whitenedColumns, information } = whitened;
  const draws = normalDraws(people * rules);
  const pulls = Array.from({ length: people }, (_, person) =>
    Float64Array.from(whitenedColumns, (column) => {
      let sum = 0;
      for (let rule = 0; rule < rules; rule++) sum += column[rule]! * draws[person * rules + rule]!;
      return sum;
    }),
  );
  const pull = new Float64Array(columns);
  const shifted = { ...whitened, pull };

  const namedAt = (displacement: Displacement, mm: number): boolean => {
    const owners = new Set(displacement.markers.map((label) => body.set.markers.findIndex((m) => m.label === label)));
    let named = 0;
    for (const noise of pulls) {
      pull.set(noise);
      for (const { column, sign } of displacement.columns) {
        for (let i = 0; i < columns; i++) pull[i]! += mm * sign * information[i * columns + column]!;
      }
      const evidence = screenSingles(shifted, ways, varianceMm2);
      let best = -1;
      evidence.forEach((logOdds, way) => {
        // Above 0: rather this marker than nothing.
        if (logOdds > (best < 0 ? 0 : evidence[best]!)) best = way;
      });
      if (best >= 0 && owners.has(ways[best]!.marker)) named += 1;
    }
    return named >= often * people;
  };

  return (displacement) => {
    if (!namedAt(displacement, furthestMm)) return null;
    let [low, high] = [0, furthestMm];
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2);
      if (namedAt(displacement, middle)) high = middle;
      else low = middle;
    }
    return high;
  };
}
