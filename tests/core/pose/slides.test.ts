import { describe, expect, it } from 'vitest';
import { distance, dot, type Vec3 } from '../../../src/core/geometry/vector.ts';
import type { AveragedMarkers } from '../../../src/core/pose/average-window.ts';
import { radiusOf, slidesOf } from '../../../src/core/pose/slides.ts';
import { standBody } from '../../../src/core/pose/standing-body.ts';
import { layOutGeometry } from '../../../src/core/pose/subject-geometry.ts';
import { at } from '../../../src/core/rule-kinds/positions.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { inOrder, wellPlaced } from '../../support/ordinary-people.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

const people = [1, 2, 3, 4].map((seed) => {
  const means = inOrder(
    wellPlaced(seed),
    wands22.markers.map((marker) => marker.label),
  );
  const geometry = layOutGeometry(wands22, emptySession, means, [0, 0, 1], [0, 1, 0], 0);
  return standBody(wands22, geometry, { means, parts: [means] } as unknown as AveragedMarkers, false);
});
const marker = (label: string) => wands22.markers.find((one) => one.label === label)!;

describe('slidesOf', () => {
  it.each(wands22.markers.map(({ label }) => label))('gives %s unit directions, as many as it has ways', (label) => {
    for (const body of people) {
      const slides = slidesOf(body, marker(label));
      expect(slides.map(({ direction }) => direction)).toEqual(marker(label).slides);
      for (const { vector } of slides) expect(dot(vector, vector)).toBeCloseTo(1, 9);
    }
  });

  it('points outward away from the midline on either side, and to the left on it', () => {
    for (const body of people) {
      const way = (label: string) => slidesOf(body, marker(label)).find(({ direction }) => direction === 'outward')!;
      expect(way('R_ASIS').vector[1]).toBeCloseTo(-1, 9);
      expect(way('L_ASIS').vector[1]).toBeCloseTo(1, 9);
      expect(way('S1').vector[1]).toBeCloseTo(1, 9);
    }
  });

  it.each(['R_TW', 'L_TW', 'R_SW', 'L_SW'])('takes %s round the bone: forward, and no further from it', (label) => {
    for (const body of people) {
      const [slide] = slidesOf(body, marker(label));
      const radius = radiusOf(body, marker(label));
      expect(dot(slide!.vector, radius)).toBeCloseTo(0, 6);
      expect(slide!.vector[0]).toBeGreaterThan(0.5);
      // Half a millimetre along the tangent leaves the distance from the bone as it was, to second order.
      const before = Math.hypot(...radius);
      const after = distance(radius.map((mm, axis) => mm + 0.5 * slide!.vector[axis]!) as Vec3, [0, 0, 0]);
      expect(after - before).toBeLessThan(0.002);
    }
  });

  it('measures the radius square to the bone', () => {
    for (const body of people) {
      const { lookup } = body.geometry;
      const [knee, hip] = [at(body.positions, lookup.point('R_LE')), at(body.positions, lookup.point('R_hipTop'))];
      const bone: Vec3 = [hip[0] - knee[0], hip[1] - knee[1], hip[2] - knee[2]];
      expect(Math.abs(dot(radiusOf(body, marker('R_TW')), bone))).toBeLessThan(1e-6);
    }
  });
});
