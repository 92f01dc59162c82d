import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convexHull, limbPath } from '../../../src/page/figure/flat-shapes.ts';
import type { Flat } from '../../../src/page/figure/views.ts';

const coordinate = fc.integer({ min: -200, max: 200 });
const flat = fc.tuple(coordinate, coordinate);

describe('convexHull', () => {
  it('takes the corners of a square and leaves what lies inside', () => {
    const square: Flat[] = [
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ];
    expect(convexHull([...square, [5, 5], [5, 0], [2, 8]])).toHaveLength(4);
  });

  it('has every point on or inside each of its edges', () => {
    fc.assert(
      fc.property(fc.array(flat, { minLength: 3, maxLength: 30 }), (points) => {
        const hull = convexHull(points);
        hull.forEach(([ax, ay], i) => {
          const [bx, by] = hull[(i + 1) % hull.length]!;
          for (const [x, y] of points) expect((bx - ax) * (y - ay) - (by - ay) * (x - ax)).toBeGreaterThanOrEqual(0);
        });
      }),
    );
  });
});

describe('limbPath', () => {
  it('starts and turns on its circles: straight limb of equal thickness', () => {
    // Two circles of radius 10, 100 apart: the straight sides lie 10 above and below.
    expect(limbPath([0, 0], 10, [100, 0], 10)).toBe('M0 10A10 10 0 0 1 0 -10L100 -10A10 10 0 1 1 100 10Z');
  });

  it('is the larger circle alone where that holds the other', () => {
    expect(limbPath([0, 0], 50, [10, 0], 5)).toBe('M-50 0a50 50 0 1 0 100 0a50 50 0 1 0 -100 0Z');
    fc.assert(
      fc.property(flat, flat, (a, b) => {
        expect(limbPath(a, 20, b, 12)).not.toMatch(/NaN|Infinity/);
      }),
    );
  });
});
