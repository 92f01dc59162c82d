import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { placementDifferences } from '../../../src/core/compare/placement-differences.ts';
import { bodyFromPositions } from '../../../src/core/pose/body-from-positions.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

const stand = (positions: MarkerPositions) =>
  bodyFromPositions(wands22, emptySession, (label) => positions.get(label))!;
const adult = symmetricAdult();
const leg = {
  kneeTurnDeg: 2.5,
  tibialTorsionDeg: 28,
  footProgressionDeg: 11,
  thighExtraMm: 0,
  shankExtraMm: 0,
  malleolusHeightExtraMm: 0,
  footForwardMm: 0,
  footSupinationDeg: 0,
};
const bent = symmetricAdult({ right: { ...leg, kneeFlexionDeg: 12 }, pelvicSlopeDeg: 9 });

function far(before: MarkerPositions, now: MarkerPositions, mm: number): string[] {
  return placementDifferences(stand(before), stand(now))
    .filter(({ distanceMm }) => distanceMm > mm)
    .map(({ marker }) => marker);
}

describe('placementDifferences', () => {
  it('finds nothing where only the posture is another one', () => {
    expect(far(adult, bent, 2)).toEqual([]);
    const turned = new Map(
      [...adult].map(([label, [x, y, z]]) => [label, [x + 40, y - 300, z] as [number, number, number]]),
    );
    expect(far(adult, turned, 0.01)).toEqual([]);
  });

  it.each([
    ['R_TW', { forward: 14 }, 'forward', 14],
    ['R_LE', { forward: 20 }, 'forward', 20],
    ['L_LE', { forward: -20 }, 'forward', -20],
    ['R_ASIS', { up: 20 }, 'up', 20],
    ['L_ASIS', { left: 15 }, 'outward', 15],
    ['R_ASIS', { left: -15 }, 'outward', 15],
  ] as const)('finds %s moved by %o, also while the posture changed', (marker, by, axis, mm) => {
    for (const person of [adult, bent]) {
      const differences = placementDifferences(stand(adult), stand(displace(person, marker, by)));
      const largest = differences.reduce((most, one) => (one.distanceMm > most.distanceMm ? one : most));
      expect(largest.marker).toBe(marker);
      // What is off is shared by the neighbours in part.
      expect(largest.mm[axis] / mm).toBeGreaterThan(0.65);
      expect(largest.mm[axis] / mm).toBeLessThan(1.1);
    }
  });

  it('says where two careful hands would not differ so', () => {
    const [heel] = placementDifferences(stand(adult), stand(displace(adult, 'L_HEEL', { up: -15 }))).filter(
      ({ marker }) => marker === 'L_HEEL',
    );
    expect(heel!.beyondHand).toBe(true);
    const [hip] = placementDifferences(stand(adult), stand(displace(adult, 'R_GT', { forward: 12 }))).filter(
      ({ marker }) => marker === 'R_GT',
    );
    expect(hip!.beyondHand).toBe(false);
  });
});
