import { describe, expect, it } from 'vitest';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { assess, assessed, placedMarkers, withoutMedialMarkers } from './stand-person.ts';

const markers = placedMarkers();
const level = 'asis-level';

describe('uncertainty from averaging', () => {
  it('is what cameras can tell while the body does not move', () => {
    expect(assessed(assess(markers, { parts: [markers, markers, markers, markers] }), level).uncertainty).toBe(0.15);
    expect(assessed(assess(markers, { parts: [] }), level).uncertainty).toBe(0.15);
  });

  it('is the spread over parts of the window, divided by the root of half their number', () => {
    const heights = [0, 3, -3, 0];
    const parts = heights.map((up) => displace(markers, 'R_ASIS', { up }));
    const spread = Math.sqrt(18 / 3);
    expect(assessed(assess(markers, { parts }), level).uncertainty).toBeCloseTo(spread / Math.sqrt(2), 6);
  });

  it('is the whole spread on a restless person', () => {
    const parts = [0, 3, -3, 0].map((up) => displace(markers, 'R_LE', { up }));
    const restless = assessed(assess(markers, { parts, restless: true }), 'shanks-alike').uncertainty;
    const still = assessed(assess(markers, { parts }), 'shanks-alike').uncertainty;
    expect(restless / still).toBeCloseTo(Math.SQRT2, 9);
    expect(restless).toBeCloseTo(Math.sqrt(6), 1);
  });

  it('does not grow when the whole body sways as one', () => {
    const parts = [0, 4, -4].map((shift) =>
      [...markers.keys()].reduce((moved, label) => displace(moved, label, { forward: shift, left: shift }), markers),
    );
    expect(assessed(assess(markers, { parts }), level).uncertainty).toBe(0.15);
  });
});

describe('uncertainty of the direction of view', () => {
  const turn = (id: string) => assessed(assess(withoutMedialMarkers(markers)), id);

  it('is that of the knee axis for a thigh wand in degrees: 8.9 (62 real standing trials)', () => {
    const { uncertainty } = turn('thigh-wand-hip-plane.right');
    expect(uncertainty).toBeGreaterThan(8.4);
    expect(uncertainty).toBeLessThan(9.4);
  });

  it('is that of knee and torsion together for a shank wand: the root of 8.9 and 8 squared', () => {
    const { uncertainty, description } = turn('shank-wand-in-line.right');
    const reach = description.bounds.high / Math.tan((5 * Math.PI) / 180);
    const estimate = reach * Math.tan((Math.hypot(8.9, 8) * Math.PI) / 180);
    expect(uncertainty / estimate).toBeGreaterThan(0.75);
    expect(uncertainty / estimate).toBeLessThan(1.25);
  });

  it('is none where markers tell the axis', () => {
    expect(assessed(assess(markers), 'thigh-wand-hip-plane.right').uncertainty).toBe(0);
  });
});
