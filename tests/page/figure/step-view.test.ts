import { describe, expect, it } from 'vitest';
import { movementOf, viewOf } from '../../../src/page/figure/step-view.ts';
import { buildMove } from '../../core/report/build-report.ts';

describe('movementOf', () => {
  it('turns outward into left by the side of the marker', () => {
    const mm = { forward: 3, up: 2, outward: 10 };
    expect(movementOf(buildMove({ side: 'left', mm }))).toEqual([3, 10, 2]);
    expect(movementOf(buildMove({ side: 'right', mm }))).toEqual([3, -10, 2]);
    expect(movementOf(buildMove({ side: 'midline', mm: { forward: 0, up: -71, left: 4 } }))).toEqual([0, 4, -71]);
    const { mm: _, ...without } = buildMove();
    expect(movementOf(without)).toBeNull();
  });
});

describe('viewOf', () => {
  it('looks from the side of the marker where the movement shows there', () => {
    expect(viewOf([-14, 1, 0], 'right', false)).toBe('right');
    expect(viewOf([0, 0, 11], 'left', true)).toBe('left');
    expect(viewOf([0, 0, -71], 'midline', true)).toBe('right');
  });

  it('looks from where a movement sideways shows', () => {
    expect(viewOf([0, 20, 3], 'right', false)).toBe('front');
    expect(viewOf([0, 20, 0], 'midline', true)).toBe('behind');
    expect(viewOf([14, 14, 0], 'left', false)).toBe('above');
  });
});
