import { describe, expect, it } from 'vitest';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { markerShift } from '../../../src/core/captures/marker-shift.ts';
import { standsAgain } from '../../support/stand-again.ts';
import { checkPositions } from '../../support/still-trial.ts';

const none = new Set<string>();
const people = Array.from({ length: 20 }, (_, index) => index + 1);

describe('how far a marker moved on the body', () => {
  it('is exact for a person who stands as before', () => {
    const body = standsAgain(5, 0);
    const moved = displace(body, 'R_TW', { forward: -12, up: 3 });
    const shift = markerShift(checkPositions(body), checkPositions(moved, { headingDeg: 75 }), 'R_TW', none)!;
    expect(shift[0]).toBeCloseTo(-12, 1);
    expect(shift[1]).toBeCloseTo(0, 1);
    expect(shift[2]).toBeCloseTo(3, 1);
  });

  // A foot that is set down turned takes its heel sideways; up and down, the way a heel marker is asked to go, it stays.
  it.each([
    ['R_TW', 0, 1],
    ['R_SW', 0, 2],
    ['L_HEEL', 2, 1],
    ['S1', 2, 8],
  ])(
    'is small for %s that nobody touched, along axis %d under %d mm, though the leg stands elsewhere',
    (marker, axis, mm) => {
      for (const seed of people) {
        const [before, now] = [checkPositions(standsAgain(seed, 0)), checkPositions(standsAgain(seed, 1))];
        expect(Math.abs(markerShift(before, now, marker, none)![axis]!), `person ${seed}`).toBeLessThan(mm);
      }
    },
  );

  it('is found in a person who stands otherwise than before', () => {
    for (const seed of people) {
      const before = checkPositions(standsAgain(seed, 0));
      const now = checkPositions(displace(standsAgain(seed, 1), 'R_TW', { forward: -12 }));
      expect(Math.abs(markerShift(before, now, 'R_TW', none)![0] + 12), `person ${seed}`).toBeLessThan(1.5);
    }
  });

  it('does not lean on markers that were moved themselves', () => {
    const body = standsAgain(7, 0);
    const moved = displace(displace(body, 'R_TW', { forward: -12 }), 'R_LE', { forward: 20 });
    const [before, now] = [checkPositions(body), checkPositions(moved)];
    expect(markerShift(before, now, 'R_TW', new Set(['R_LE']))![0]).toBeCloseTo(-12, 1);
    expect(markerShift(before, now, 'R_TW', none)![0]).not.toBeCloseTo(-12, 0);
  });

  it('is not told for a marker that one of the captures lacks', () => {
    const body = checkPositions(standsAgain(5, 0));
    expect(markerShift(body, body, '__proto__', none)).toBeNull();
    expect(markerShift(body, { ...body, markers: {} }, 'R_TW', none)).toBeNull();
  });
});
