import { describe, expect, it } from 'vitest';
import { scatterPlot } from '../../../src/core/crosstalk/scatter-plot.ts';

describe('a plot in letters', () => {
  it('is as wide as it may be, with its ends on fives, zero as a line and density as letters', () => {
    const points = [
      { x: 0, y: -4 },
      { x: 60, y: 6 },
      ...Array.from({ length: 5 }, () => ({ x: 30, y: 1 })),
      ...Array.from({ length: 2 }, () => ({ x: 45, y: 1 })),
    ];
    expect(scatterPlot(points, 40)).toEqual([
      '   10 |',
      '      |',
      '      |',
      '      |                                .',
      '      |',
      '      |',
      '      |',
      '      |                #       :',
      '    0 |---------------------------------',
      '      |',
      '      |',
      '      |.',
      '   -5 |',
      '      +---------------------------------',
      '       0                              60',
    ]);
  });

  it('does not spread noise over the page', () => {
    const lines = scatterPlot(
      Array.from({ length: 50 }, (_, x) => ({ x, y: 0.2 * (x % 2) })),
      60,
    );
    expect(lines[0]).toMatch(/^ +[5-9]|10 \|/);
    expect(lines.filter((line) => /[.:#]/.test(line)).length).toBe(1);
  });

  it('draws one point, and none', () => {
    expect(scatterPlot([{ x: 3, y: 3 }], 80).some((line) => line.includes('.'))).toBe(true);
    expect(scatterPlot([], 80)).toEqual([]);
  });
});
