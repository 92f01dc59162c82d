import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PairMirrored, pairMirrored } from '../../../src/core/rule-kinds/pair-mirrored.ts';
import { keepsTheContract, measure, mirrored, nearby, type Place, shifted } from './rule-kind-contract.ts';

const rule: PairMirrored = {
  kind: 'pair-mirrored',
  unit: 'mm',
  side: 'both',
  borderline: 20,
  right: { from: 'R_LE', to: 'R_TW' },
  left: { from: 'L_LE', to: 'L_TW' },
  component: 'forward',
  allowed: { target: 0, limit: 60 },
};
/** Right wand 22 forward, 95 outside and 210 above its knee; left wand 6 behind, 80 outside and 190 above. */
const place: Place = {
  points: { R_LE: [10, -150, 480], R_TW: [32, -245, 690], L_LE: [4, 140, 470], L_TW: [-2, 220, 660] },
};

keepsTheContract(pairMirrored, rule, place);
keepsTheContract(pairMirrored, { ...rule, unit: 'deg', component: 'turn' }, place);

describe('pair-mirrored', () => {
  it.each([
    ['forward', 28],
    ['outward', 15],
    ['up', 20],
  ] as const)('says right minus left: %s', (component, expected) => {
    expect(measure(pairMirrored, { ...rule, component }, place).value).toBe(expected);
  });

  it('says right minus left of the turn outward, the outer end going back', () => {
    const spec: PairMirrored = { ...rule, unit: 'deg', component: 'turn', allowed: { target: -2.7, limit: 23 } };
    const right = Math.atan2(-22, 95);
    const left = Math.atan2(6, 80);
    const { value, residual } = measure(pairMirrored, spec, place);
    expect(value).toBeCloseTo(((right - left) * 180) / Math.PI, 9);
    expect(residual).toBeCloseTo(value + 2.7, 9);
    expect(value).toBeLessThan(0);
  });

  it.each(['forward', 'outward', 'up', 'turn'] as const)(
    'is nothing on a body like its mirror image: %s',
    (component) => {
      fc.assert(
        fc.property(fc.tuple(nearby, nearby, nearby), ([forward, left, up]) => {
          const right = shifted(place, 'R_TW', [forward, left, up]).points;
          const alike: Place = {
            points: {
              R_LE: right.R_LE!,
              R_TW: right.R_TW!,
              ...mirrored({ points: { R_LE: right.R_LE!, R_TW: right.R_TW! } }).points,
            },
          };
          expect(measure(pairMirrored, { ...rule, component }, alike).value).toBeCloseTo(0, 9);
        }),
      );
    },
  );

  it.each(['forward', 'outward', 'up', 'turn'] as const)('changes its sign in the mirror: %s', (component) => {
    const spec: PairMirrored = { ...rule, component };
    expect(measure(pairMirrored, spec, mirrored(place)).value).toBeCloseTo(
      -measure(pairMirrored, spec, place).value,
      9,
    );
  });

  it('has no turn where a line points straight up', () => {
    const upright: Place = { points: { ...place.points, R_TW: [10, -150, 700] } };
    expect(measure(pairMirrored, { ...rule, component: 'turn' }, upright).value).toBeNaN();
  });
});
