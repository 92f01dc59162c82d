import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { farSide, type Place, type View, views } from '../../../src/page/figure/views.ts';

const all = Object.keys(views) as View[];
/** Right in the picture, of a place that lies 100 mm along one of the patient's own axes. */
const rightward = (view: View, place: Place) => views[view].flatten(place)[0];
const downward = (view: View, place: Place) => views[view].flatten(place)[1];
const forward: Place = [100, 0, 0];
const left: Place = [0, 100, 0];
const up: Place = [0, 0, 100];

describe('views', () => {
  it('are the right way round', () => {
    // Facing the patient, their left is on the viewer's right.
    expect(rightward('front', left)).toBe(100);
    expect(rightward('behind', left)).toBe(-100);
    // From the patient's right they face to the viewer's right, and from their left to the viewer's left.
    expect(rightward('right', forward)).toBe(100);
    expect(rightward('left', forward)).toBe(-100);
    // From above, forward is up and left is left.
    expect(downward('above', forward)).toBe(-100);
    expect(rightward('above', left)).toBe(-100);
    for (const view of ['front', 'behind', 'right', 'left'] as const) expect(downward(view, up)).toBe(-100);
  });

  it('say at each edge what lies there', () => {
    const toward = {
      "patient's left": left,
      "patient's right": [0, -100, 0],
      front: forward,
      back: [-100, 0, 0],
    } as const;
    for (const view of all) {
      const { edges } = views[view];
      expect(rightward(view, toward[edges.right as keyof typeof toward])).toBe(100);
      expect(rightward(view, toward[edges.left as keyof typeof toward])).toBe(-100);
    }
  });

  it('are looks at one body and never mirror images: right, up and toward the viewer make a right-handed frame', () => {
    fc.assert(
      fc.property(fc.constantFrom(...all), (view) => {
        const axes = [forward, left, up];
        const x = axes.map((axis) => views[view].flatten(axis)[0] / 100);
        const y = axes.map((axis) => -views[view].flatten(axis)[1] / 100);
        const toward = axes.map((axis) => views[view].nearness(axis) / 100);
        const cross = [x[1]! * y[2]! - x[2]! * y[1]!, x[2]! * y[0]! - x[0]! * y[2]!, x[0]! * y[1]! - x[1]! * y[0]!];
        cross.forEach((part, i) => {
          expect(part).toBeCloseTo(toward[i]!, 12);
        });
      }),
    );
  });

  it('draw the far side fainter: the one whose markers are further from the viewer', () => {
    expect(farSide('right')).toBe('left');
    expect(views.right.nearness(left)).toBeLessThan(0);
    expect(farSide('left')).toBe('right');
    expect(farSide('front')).toBeNull();
  });
});
