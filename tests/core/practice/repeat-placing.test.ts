import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { bodyFromPositions } from '../../../src/core/pose/body-from-positions.ts';
import { slidesOf } from '../../../src/core/pose/slides.ts';
import { repeatedPlacement } from '../../../src/core/practice/repeat-placing.ts';
import { repeatLimits } from '../../../src/core/practice/repeat-rows.ts';
import { roundRepeat } from '../../../src/core/practice/round-repeat.ts';
import { sdInterval } from '../../../src/core/practice/sd-interval.ts';
import { seededDraw } from '../../../src/core/practice/seeded-draw.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

const stand = (positions: MarkerPositions) =>
  bodyFromPositions(wands22, emptySession, (label) => positions.get(label))!;
const adult = symmetricAdult();

describe('repeatedPlacement', () => {
  it('tells the spread of one marker that was placed 0, 6 and 12 mm up, and of no other', () => {
    const times = [0, 6, 12].map((up) => stand(displace(adult, 'L_LE', { up })));
    const { placings, markers, landmarks } = roundRepeat(repeatedPlacement(times));
    const knee = markers.find(({ marker }) => marker === 'L_LE')!;
    // SD of 0, 6, 12 is 6; of both sides together, the right one still, 6 / sqrt 2.
    expect(placings).toBe(3);
    expect(Math.abs(knee.sdMm.up - 6)).toBeLessThan(0.5);
    const both = landmarks.find(({ landmark }) => landmark === 'LE')!;
    expect(Math.abs(both.upMm! - 6 / Math.SQRT2)).toBeLessThan(0.4);
    expect(both.degrees).toBe(4);
    for (const { marker, sdMm } of markers) {
      if (marker !== 'L_LE') expect(Math.hypot(sdMm.forward, sdMm.up, sdMm.outward)).toBeLessThan(1.2);
    }
  });

  it('shows of a hand half as wide as stated half of what it says that one as stated would show', () => {
    const draw = seededDraw(5);
    const body = stand(adult);
    const sums = new Map<string, [number, number]>();
    for (let time = 0; time < 16; time++) {
      const placed = Array.from({ length: 3 }, () => {
        const anew = new Map(adult);
        for (const marker of wands22.markers) {
          for (const { direction, vector } of slidesOf(body, marker)) {
            const along = direction === 'left' ? 'outward' : direction;
            const mm = (0.5 * marker.scatterMm[along] * draw.bell()) / 0.88;
            const [x, y, z] = anew.get(marker.label)!;
            anew.set(marker.label, [x + mm * vector[0], y + mm * vector[1], z + mm * vector[2]]);
          }
        }
        return stand(anew);
      });
      for (const { landmark, forwardMm, upMm, outwardMm, usualMm } of repeatedPlacement(placed).landmarks) {
        for (const [along, mm, usual] of [
          ['forward', forwardMm, usualMm.forward],
          ['up', upMm, usualMm.up],
          ['outward', outwardMm, usualMm.outward],
        ] as const) {
          expect(mm === null).toBe(usual === null);
          if (mm === null || usual === null) continue;
          const [shown, stated] = sums.get(`${landmark} ${along}`) ?? [0, 0];
          sums.set(`${landmark} ${along}`, [shown + mm ** 2, stated + usual ** 2]);
        }
      }
    }
    expect(sums.size).toBeGreaterThan(12);
    for (const [shown, stated] of sums.values()) expect(Math.abs(Math.sqrt(shown / stated) - 0.5)).toBeLessThan(0.15);
  });

  it('tells nothing where a marker does not slide, or where its segment would take the spread up', () => {
    const { landmarks } = repeatedPlacement([stand(adult), stand(displace(adult, 'L_LE', { up: 6 }))]);
    const of = (stem: string) => landmarks.find(({ landmark }) => landmark === stem)!;
    expect([of('TW').upMm, of('TW').outwardMm, of('ACR').forwardMm]).toEqual([null, null, null]);
    expect(of('LE').upMm).not.toBeNull();
  });

  it('finds no spread where the person only stands elsewhere', () => {
    const turned: MarkerPositions = new Map([...adult].map(([label, [x, y, z]]) => [label, [x + 300, y - 40, z]]));
    for (const { sdMm } of repeatedPlacement([stand(adult), stand(turned)]).markers) {
      expect(Math.hypot(sdMm.forward, sdMm.up, sdMm.outward)).toBeLessThan(0.01);
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
    expect(says[0]).toContain(
      'From 2 placings, chance alone leaves the spread of one marker anywhere from 0.4 to 31.9 times what is shown',
    );
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
