import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type AngleInRange, angleInRange } from '../../../src/core/rule-kinds/angle-in-range.ts';
import { keepsTheContract, measure, mirrored, type Place } from './rule-kind-contract.ts';

const radians = (angle: number): number => (angle * Math.PI) / 180;

const rule: AngleInRange = {
  kind: 'angle-in-range',
  unit: 'deg',
  side: 'right',
  borderline: 14,
  measure: 'turn-from-forward',
  from: 'R_HEEL',
  to: 'R_MET5',
  vertex: null,
  allowed: { range: [-20, 66] },
};
const place: Place = { points: { R_HEEL: [-60, -90, 31], R_MET5: [60, -140, 42], R_LM: [-20, -100, 70] } };
const asIs = { points: { R_HEEL: place.points.R_HEEL!, R_MET5: place.points.R_MET5! } };

for (const name of ['turn-from-forward', 'turn-from-outward', 'fall', 'lean-forward', 'lean-left'] as const) {
  keepsTheContract(angleInRange, { ...rule, measure: name }, asIs);
}
keepsTheContract(angleInRange, { ...rule, measure: 'bend', vertex: 'R_LM' }, place);

/** A line of 100 mm that goes this far forward, left and up, on the right side. */
function line(forward: number, left: number, up: number): Place {
  return { points: { R_HEEL: [7, -11, 13], R_MET5: [7 + 100 * forward, -11 + 100 * left, 13 + 100 * up] } };
}

const onTheLeft = (name: AngleInRange['measure']): AngleInRange => ({
  ...rule,
  measure: name,
  side: 'left',
  from: 'L_HEEL',
  to: 'L_MET5',
});

const sine = (angle: number): number => Math.sin(radians(angle));
const cosine = (angle: number): number => Math.cos(radians(angle));

describe('angle-in-range', () => {
  it.each([-170, -30, 0, 20, 89, 135])('turn-from-forward: a line turned outward by %i degrees', (angle) => {
    const turned = line(cosine(angle), -sine(angle), 0.4);
    expect(measure(angleInRange, rule, turned).value).toBeCloseTo(angle, 9);
    expect(measure(angleInRange, onTheLeft('turn-from-forward'), mirrored(turned)).value).toBeCloseTo(angle, 9);
  });

  it('turn-from-forward: on the midline, to the left', () => {
    const middle: AngleInRange = { ...rule, side: 'midline' };
    expect(measure(angleInRange, middle, line(cosine(12), sine(12), 0)).value).toBeCloseTo(12, 9);
  });

  it.each([-40, 0, 2.5, 25])('turn-from-outward: the outer end gone back by %d degrees', (angle) => {
    const spec: AngleInRange = { ...rule, measure: 'turn-from-outward' };
    const turned = line(-sine(angle), -cosine(angle), -0.2);
    expect(measure(angleInRange, spec, turned).value).toBeCloseTo(angle, 9);
    expect(measure(angleInRange, onTheLeft('turn-from-outward'), mirrored(turned)).value).toBeCloseTo(angle, 9);
  });

  it.each([-15, 0, 12.8])('fall: below level toward its end by %d degrees, seen from the side', (angle) => {
    const spec: AngleInRange = { ...rule, measure: 'fall' };
    expect(measure(angleInRange, spec, line(cosine(angle), 0.3, -sine(angle))).value).toBeCloseTo(angle, 9);
  });

  it.each([-9, 0, 7])('lean-forward and lean-left: off the vertical by %i degrees', (angle) => {
    const forward: AngleInRange = { ...rule, side: 'midline', measure: 'lean-forward' };
    const left: AngleInRange = { ...rule, side: 'midline', measure: 'lean-left' };
    expect(measure(angleInRange, forward, line(sine(angle), 0.3, cosine(angle))).value).toBeCloseTo(angle, 9);
    expect(measure(angleInRange, left, line(0.3, sine(angle), cosine(angle))).value).toBeCloseTo(angle, 9);
  });

  it('bend: what the lower half is turned back against the upper, whatever the leg leans', () => {
    const spec: AngleInRange = { ...rule, measure: 'bend', from: 'R_GT', vertex: 'R_LE', to: 'R_LM' };
    fc.assert(
      fc.property(
        fc.double({ min: -40, max: 70, noNaN: true }),
        fc.double({ min: -15, max: 15, noNaN: true }),
        (bend, lean) => {
          const knee = [0, -140, 500] as const;
          const bent: Place = {
            points: {
              R_GT: [knee[0] - 400 * sine(bend / 2 + lean), -170, knee[2] + 400 * cosine(bend / 2 + lean)],
              R_LE: [...knee],
              R_LM: [knee[0] - 410 * sine(bend / 2 - lean), -120, knee[2] - 410 * cosine(bend / 2 - lean)],
            },
          };
          expect(measure(angleInRange, spec, bent).value).toBeCloseTo(bend, 9);
        },
      ),
    );
  });

  it('measures residuals from the middle of the range', () => {
    const { residual, bounds } = measure(angleInRange, rule, line(1, 0, 0));
    expect(residual).toBeCloseTo(-23, 9);
    expect(bounds).toEqual({ reference: 23, low: -20, high: 66, borderline: 14 });
  });

  it('says NaN where the line cannot be seen from there', () => {
    const needsNoHeight = ['turn-from-forward', 'turn-from-outward'] as const;
    for (const name of needsNoHeight) {
      expect(measure(angleInRange, { ...rule, measure: name }, line(0, 0, 1)).value).toBeNaN();
    }
    expect(measure(angleInRange, { ...rule, measure: 'fall' }, line(0, 1, 0)).value).toBeNaN();
    expect(measure(angleInRange, { ...rule, measure: 'lean-forward' }, line(0, 1, 0)).value).toBeNaN();
    expect(measure(angleInRange, { ...rule, measure: 'lean-left' }, line(1, 0, 0)).value).toBeNaN();
    const onSpot: Place = { points: { ...place.points, R_LM: place.points.R_HEEL! } };
    expect(measure(angleInRange, { ...rule, measure: 'bend', vertex: 'R_LM' }, onSpot).value).toBeNaN();
  });

  it('draws the line, or the two halves of a joint', () => {
    expect(measure(angleInRange, rule, place).geometry.lines).toHaveLength(1);
    const bend: AngleInRange = { ...rule, measure: 'bend', vertex: 'R_LM' };
    expect(measure(angleInRange, bend, place).geometry.lines).toEqual([
      { from: [-60, -90, 31], to: [-20, -100, 70] },
      { from: [-20, -100, 70], to: [60, -140, 42] },
    ]);
  });
});
