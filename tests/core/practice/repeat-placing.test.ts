import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { bodyFromPositions } from '../../../src/core/pose/body-from-positions.ts';
import { repeatedPlacement } from '../../../src/core/practice/repeat-placing.ts';
import { repeatLimits } from '../../../src/core/practice/repeat-rows.ts';
import { roundRepeat } from '../../../src/core/practice/round-repeat.ts';
import { sdInterval } from '../../../src/core/practice/sd-interval.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

const stand = (positions: MarkerPositions) =>
  bodyFromPositions(wands22, emptySession, (label) => positions.get(label))!;
const adult = symmetricAdult();

describe('repeatedPlacement', () => {
  it('tells the spread of one marker that was placed 0, 6 and 12 mm up, and of no other', () => {
    const times = [0, 6, 12].map((up) => stand(displace(adult, 'L_SW', { up })));
    const { placings, markers, landmarks } = roundRepeat(repeatedPlacement(times));
    const wand = markers.find(({ marker }) => marker === 'L_SW')!;
    // SD of 0, 6, 12 is 6; of both sides together, the right one still, 6 / sqrt 2.
    expect(placings).toBe(3);
    expect(Math.abs(wand.sdMm.up - 6)).toBeLessThan(0.7);
    expect(wand.usualMm).toEqual(wands22.markers.find(({ label }) => label === 'L_SW')!.scatterMm);
    const shank = landmarks.find(({ landmark }) => landmark === 'SW')!;
    expect(Math.abs(shank.upMm - 6 / Math.SQRT2)).toBeLessThan(0.5);
    expect(shank.degrees).toBe(4);
    for (const { marker, sdMm } of markers) {
      if (marker !== 'L_SW') expect(Math.hypot(sdMm.forward, sdMm.up, sdMm.outward)).toBeLessThan(1.2);
    }
  });

  it('finds no spread where the person only stands elsewhere', () => {
    const turned: MarkerPositions = new Map([...adult].map(([label, [x, y, z]]) => [label, [x + 300, y - 40, z]]));
    for (const { forwardMm, upMm, outwardMm } of repeatedPlacement([stand(adult), stand(turned)]).landmarks) {
      expect(Math.hypot(forwardMm, upMm, outwardMm)).toBeLessThan(0.01);
    }
  });

  it('leaves out a marker that one of the trials does not have', () => {
    const without = new Map(adult);
    without.delete('L_ME');
    const { markers } = repeatedPlacement([stand(adult), stand(adult), stand(without)]);
    expect(markers.map(({ marker }) => marker)).not.toContain('L_ME');
    expect(markers.map(({ marker }) => marker)).toContain('R_ME');
  });

  it('says how little two placings tell', () => {
    const says = repeatLimits(repeatedPlacement([stand(adult), stand(adult)]));
    expect(says[0]).toContain('From 2 placings: the true spread of one marker may be 0.4 to 31.9 times what is shown');
  });
});

describe('sdInterval', () => {
  // Chi-square tables: 0.025 and 0.975 points 0.000982 and 5.024 (1 degree), 0.484 and 11.143 (4), 2.700 and 19.023 (9).
  it.each([
    [1, 0.446, 31.91],
    [4, 0.599, 2.874],
    [9, 0.688, 1.826],
  ])('of %i degrees of freedom as tables of chi-square have it', (degrees, low, high) => {
    const [a, b] = sdInterval(degrees);
    expect(a).toBeCloseTo(low, 2);
    expect(Math.abs(b / high - 1)).toBeLessThan(0.002);
  });
});
