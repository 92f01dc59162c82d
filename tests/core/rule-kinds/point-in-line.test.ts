import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../../src/core/geometry/vector.ts';
import { type PointInLine, pointInLine } from '../../../src/core/rule-kinds/point-in-line.ts';
import { keepsTheContract, measure, mirrored, nearby, type Place, shifted } from './rule-kind-contract.ts';

const degrees = (radians: number): number => (radians * 180) / Math.PI;
const radians = (angle: number): number => (angle * Math.PI) / 180;

const rule: PointInLine = {
  kind: 'point-in-line',
  unit: 'mm',
  side: 'right',
  borderline: 2,
  point: 'R_TW',
  distal: 'R_LE',
  proximal: 'R_GT',
  view: 'kneeAxis',
  reachFrom: { distal: 'R_LE', proximal: 'hipTop' },
  allowedTurn: { targetDeg: 0, limitDeg: 5 },
};

/**
 * A right thigh whose line leans back toward the trochanter, looked at along the body's own outward (minus left). The
 * bone's line goes straight up from the epicondyle, so the reach of the tip is what lies between them to the right.
 */
const place: Place = {
  points: { R_TW: [9, -240, 700], R_LE: [0, -140, 500], R_GT: [0, -190, 900], hipTop: [0, -140, 920] },
  views: { kneeAxis: [0, -1, 0] },
};

keepsTheContract(pointInLine, rule, place);
keepsTheContract(pointInLine, { ...rule, unit: 'deg', allowedTurn: { targetDeg: -2.5, limitDeg: 13 } }, place);

describe('point-in-line', () => {
  it('says how far the point stands in front of the line, looking along the view', () => {
    const { value, residual } = measure(pointInLine, rule, place);
    expect(value).toBeCloseTo(9, 12);
    expect(residual).toBeCloseTo(9, 12);
  });

  it('says in degrees the turn about the bone that the offset stands for: atan(offset / reach)', () => {
    // The tip is 100 mm outside the bone's line.
    expect(measure(pointInLine, { ...rule, unit: 'deg' }, place).value).toBeCloseTo(degrees(Math.atan(9 / 100)), 9);
  });

  it('allows in mm what the allowed turn makes at this reach', () => {
    const { bounds } = measure(pointInLine, rule, place);
    expect(bounds.reference).toBeCloseTo(0, 12);
    expect(bounds.high).toBeCloseTo(100 * Math.tan(radians(5)), 9);
    expect(bounds.low).toBeCloseTo(-100 * Math.tan(radians(5)), 9);
    expect(bounds.high - bounds.borderline).toBeCloseTo(100 * Math.tan(radians(3)), 9);
  });

  it('allows a longer wand more millimetres for the same turn', () => {
    const short = measure(pointInLine, rule, shifted(place, 'R_TW', [0, 40, 0])).bounds.high;
    expect(short).toBeCloseTo(60 * Math.tan(radians(5)), 9);
  });

  it('allows in degrees what is written, around its target', () => {
    const spec: PointInLine = { ...rule, unit: 'deg', allowedTurn: { targetDeg: -2.5, limitDeg: 13 }, borderline: 3 };
    const { bounds } = measure(pointInLine, spec, place);
    expect(bounds.reference).toBeCloseTo(-2.5, 12);
    expect(bounds.low).toBeCloseTo(-15.5, 12);
    expect(bounds.high).toBeCloseTo(10.5, 12);
    expect(bounds.borderline).toBeCloseTo(3, 12);
  });

  it.each([
    [60, 17.6],
    [90, 9.2],
    [120, 6.2],
    [150, 4.7],
    [180, 3.8],
  ])('turns a wand whose tip is %i mm from the bone by %d degrees for 10 mm', (fromBoneMm, expectedDeg) => {
    // Derived, not published: hip centre over the knee centre, the epicondyle marker 57 mm outside it (half a knee of
    // 100 mm and a marker radius of 7), the wand half way up; turn about the line from epicondyle to hip centre.
    const leg: Place = {
      points: {
        R_TW: [10, -80 - fromBoneMm, 700],
        R_LE: [0, -137, 500],
        R_GT: [0, -80, 900],
        hipTop: [0, -80, 900],
      },
      views: { kneeAxis: [0, -1, 0] },
    };
    const { value } = measure(pointInLine, { ...rule, unit: 'deg' }, leg);
    // The derivation takes the tip's distance sideways, the rule square to the leaning line: 2 percent less.
    expect(value / expectedDeg).toBeGreaterThan(0.99);
    expect(value / expectedDeg).toBeLessThan(1.03);
  });

  it('is positive in front and negative behind, on either side', () => {
    const left: PointInLine = {
      ...rule,
      side: 'left',
      point: 'L_TW',
      distal: 'L_LE',
      proximal: 'L_GT',
      reachFrom: { distal: 'L_LE', proximal: 'hipTop' },
    };
    for (const forward of [9, -23]) {
      const stood = shifted(place, 'R_TW', [forward - 9, 0, 0]);
      expect(measure(pointInLine, rule, stood).value).toBeCloseTo(forward, 12);
      expect(measure(pointInLine, left, mirrored(stood)).value).toBeCloseTo(forward, 12);
      expect(measure(pointInLine, { ...left, unit: 'deg' }, mirrored(stood)).value).toBeCloseTo(
        degrees(Math.atan(forward / 100)),
        9,
      );
    }
  });

  it('sees a line that leans back as a line: a point on it is not off it', () => {
    const leaning: Place = {
      ...place,
      points: { ...place.points, R_GT: [-80, -190, 900], R_TW: [-40, -300, 700] },
    };
    expect(measure(pointInLine, rule, leaning).value).toBeCloseTo(0, 9);
  });

  it('changes by d when the point moves d along the normal of the plane, and by nothing when it stays in it', () => {
    const line: Vec3 = [0, -50, 400];
    fc.assert(
      fc.property(
        fc.double({ min: -40, max: 40, noNaN: true }),
        nearby,
        nearby,
        nearby,
        (turnDeg, along, outward, d) => {
          const view: Vec3 = [-Math.sin(radians(turnDeg)), -Math.cos(radians(turnDeg)), 0];
          const cross: Vec3 = [
            view[1] * line[2] - view[2] * line[1],
            view[2] * line[0] - view[0] * line[2],
            view[0] * line[1] - view[1] * line[0],
          ];
          const size = Math.hypot(...cross) * Math.sign(cross[0]);
          const normal: Vec3 = [cross[0] / size, cross[1] / size, cross[2] / size];
          const seen: Place = { ...place, views: { kneeAxis: view } };
          const before = measure(pointInLine, rule, seen).value;
          const inPlane = line.map((part, axis) => (along / 400) * part + outward * view[axis]!) as Vec3;
          expect(measure(pointInLine, rule, shifted(seen, 'R_TW', inPlane)).value).toBeCloseTo(before, 9);
          const away = normal.map((part) => part * d) as Vec3;
          expect(measure(pointInLine, rule, shifted(seen, 'R_TW', away)).value).toBeCloseTo(before + d, 9);
        },
      ),
    );
  });

  it('keeps the offset of a wand that is pushed out along the view, though its turn shrinks', () => {
    const longer = shifted(place, 'R_TW', [0, -100, 0]);
    expect(measure(pointInLine, rule, longer).value).toBeCloseTo(9, 12);
    expect(measure(pointInLine, { ...rule, unit: 'deg' }, longer).value).toBeCloseTo(degrees(Math.atan(9 / 200)), 9);
  });

  it.each(['mm', 'deg'] as const)('does not change in %s when the whole leg turns about the vertical', (unit) => {
    const { value } = measure(pointInLine, { ...rule, unit }, place);
    fc.assert(
      // Half a turn would bring "in front" behind; the sign goes by the body's forward.
      fc.property(fc.double({ min: -80, max: 80, noNaN: true }), (turnDeg) => {
        const turn = ([forward, left, up]: Vec3): Vec3 => [
          forward * Math.cos(radians(turnDeg)) - left * Math.sin(radians(turnDeg)),
          forward * Math.sin(radians(turnDeg)) + left * Math.cos(radians(turnDeg)),
          up,
        ];
        const all = (record: Readonly<Record<string, Vec3>>): Record<string, Vec3> =>
          Object.fromEntries(Object.entries(record).map(([name, vector]) => [name, turn(vector)]));
        const turned: Place = { points: all(place.points), views: all(place.views!) };
        expect(measure(pointInLine, { ...rule, unit }, turned).value).toBeCloseTo(value, 8);
      }),
    );
  });

  it('says NaN where the line collapses or lies along the view', () => {
    const collapsed: Place = { ...place, points: { ...place.points, R_GT: place.points.R_LE! } };
    const alongView: Place = { ...place, points: { ...place.points, R_GT: [0, -500, 500] } };
    for (const unit of ['mm', 'deg'] as const) {
      expect(measure(pointInLine, { ...rule, unit }, collapsed).value).toBeNaN();
      expect(measure(pointInLine, { ...rule, unit }, alongView).value).toBeNaN();
    }
  });

  it('says NaN where the bone has no length, so that no limit in mm can be given', () => {
    const noBone: Place = { ...place, points: { ...place.points, hipTop: place.points.R_LE! } };
    expect(measure(pointInLine, { ...rule, unit: 'deg' }, noBone).value).toBeNaN();
    expect(measure(pointInLine, rule, noBone).value).toBeNaN();
    expect(measure(pointInLine, rule, noBone).residual).toBeNaN();
  });

  it('fails a point that lies inside the bone, at any offset worth a millimetre', () => {
    const inside = shifted(place, 'R_TW', [0, 250, 0]);
    expect(measure(pointInLine, rule, inside).bounds.high).toBeCloseTo(Math.tan(radians(5)), 9);
    expect(Math.abs(measure(pointInLine, { ...rule, unit: 'deg' }, inside).value)).toBeGreaterThan(90);
  });

  it('draws the line, and the plane in which the point should stand', () => {
    const { geometry } = measure(pointInLine, rule, place);
    expect(geometry.lines).toEqual([{ from: [0, -140, 500], to: [0, -190, 900] }]);
    expect(geometry.planes).toEqual([{ at: [0, -140, 500], along: [0, -50, 400], view: [0, -1, 0] }]);
  });
});
