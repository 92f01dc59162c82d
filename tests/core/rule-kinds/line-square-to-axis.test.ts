import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LineSquareToAxis, lineSquareToAxis } from '../../../src/core/rule-kinds/line-square-to-axis.ts';
import { keepsTheContract, measure, type Place } from './rule-kind-contract.ts';

const rule: LineSquareToAxis = {
  kind: 'line-square-to-axis',
  unit: 'deg',
  side: 'midline',
  borderline: 6,
  from: 'S1',
  to: 'midAsis',
  axisFrom: 'pelvisMiddle',
  axisTo: 'trunkTop',
  axisSdDeg: 6,
  allowed: { target: 13, limit: 22 },
};

const radians = (angle: number): number => (angle * Math.PI) / 180;

/** A line of 160 mm that falls forward by one angle, and an axis of 480 mm that leans forward by another. */
function leaning(fallDeg: number, leanDeg: number, aside = 0): Place {
  const fall = radians(fallDeg);
  const lean = radians(leanDeg);
  return {
    points: {
      S1: [-80, aside, 1000],
      midAsis: [-80 + 160 * Math.cos(fall), -aside, 1000 - 160 * Math.sin(fall)],
      pelvisMiddle: [0, 0, 980],
      trunkTop: [480 * Math.sin(lean), aside, 980 + 480 * Math.cos(lean)],
    },
  };
}

keepsTheContract(lineSquareToAxis, rule, leaning(12, -3));

describe('line-square-to-axis', () => {
  it.each([
    ['square to an upright axis', 0, 0, 0],
    ['back end high', 20, 0, 20],
    ['back end low', -7, 0, -7],
    ['axis leaning forward', 0, 10, -10],
    ['axis leaning back', 0, -4, 4],
    ['both leaning forward alike stays square', 15, 15, 0],
    ['pointing backward, past square', 170, 0, 170],
  ])('%s', (_, fallDeg, leanDeg, expected) => {
    expect(measure(lineSquareToAxis, rule, leaning(fallDeg, leanDeg)).value).toBeCloseTo(expected, 9);
  });

  it('is the fall of the line less the lean of the axis, whatever lies sideways', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: -60, max: 25, noNaN: true }),
        fc.double({ min: -50, max: 50, noNaN: true }),
        (fall, lean, aside) => {
          const { value, residual } = measure(lineSquareToAxis, rule, leaning(fall, lean, aside));
          expect(value).toBeCloseTo(fall - lean, 9);
          expect(residual).toBeCloseTo(fall - lean - 13, 9);
        },
      ),
    );
  });

  it('tells beside the value how far its axis is an estimate', () => {
    const description = lineSquareToAxis.describe(Float64Array.of(0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0, 1), {
      ...lineSquareToAxis.resolve(rule, {
        point: (name) => ['S1', 'midAsis', 'pelvisMiddle', 'trunkTop'].indexOf(name) * 3,
        view: () => Number.NaN,
        axis: () => Number.NaN,
        statureMm: null,
      }),
    });
    expect(description.value).toBeCloseTo(0, 12);
    expect(description.estimatedAxisSd).toBe(6);
    expect(description.bounds).toEqual({ reference: 13, low: -9, high: 35, borderline: 6 });
  });

  it('says NaN where the line or the axis has no length seen from the side', () => {
    const noLine: Place = { points: { ...leaning(0, 0).points, midAsis: [-80, 90, 1000] } };
    const noAxis: Place = { points: { ...leaning(0, 0).points, trunkTop: [0, 5, 980] } };
    expect(measure(lineSquareToAxis, rule, noLine).value).toBeNaN();
    expect(measure(lineSquareToAxis, rule, noAxis).value).toBeNaN();
  });
});
