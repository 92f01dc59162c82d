import { describe, expect, it } from 'vitest';
import { displace, remove } from '../../../sample-trials/plant-fault.ts';
import { standingPerson } from '../../../sample-trials/standing-person.ts';
import { distance, dot, type Vec3 } from '../../../src/core/geometry/vector.ts';
import type { MarkerSet } from '../../../src/core/marker-set/marker-set.ts';
import { layOutGeometry } from '../../../src/core/pose/subject-geometry.ts';
import { at } from '../../../src/core/rule-kinds/positions.ts';
import type { Session } from '../../../src/core/session/session.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { describeOrdinaryPerson, inOrder, symmetricAdult, wellPlaced } from '../../support/ordinary-people.ts';
import { medial20, wands22 } from '../../support/shipped-marker-sets.ts';
import { sessionWith } from '../../support/still-trial.ts';

type Positions = ReturnType<typeof symmetricAdult>;

function geometryOf(positions: Positions, set: MarkerSet = wands22, session: Session = emptySession) {
  const lab = inOrder(
    positions,
    set.markers.map((marker) => marker.label),
  );
  const geometry = layOutGeometry(set, session, lab, [0, 0, 1], [0, 1, 0], 0);
  const x = new Float64Array(geometry.size);
  geometry.place(lab, x);
  const { lookup } = geometry;
  return {
    geometry,
    point: (name: string): Vec3 => at(x, lookup.point(name)),
    view: (name: string): Vec3 => at(x, lookup.view(name)),
    axis: (segment: string, axis: 'forward' | 'up' | 'outward'): Vec3 => {
      const { side } = set.segments.find(({ name }) => name === segment)!;
      return at(x, lookup.axis(segment, axis, side));
    },
  };
}

const expectClose = (found: Vec3, expected: Vec3, within = 1e-6) =>
  expect(distance(found, expected)).toBeLessThan(within);
const degrees = 180 / Math.PI;
const without = (...gone: string[]) => gone.reduce(remove, symmetricAdult());

describe('virtual points', () => {
  it('lie in the middle of what they are made of', () => {
    const { point } = geometryOf(symmetricAdult());
    const [r, l] = [point('R_HEEL'), point('L_HEEL')];
    expectClose(point('midHeels'), [(r[0] + l[0]) / 2, (r[1] + l[1]) / 2, (r[2] + l[2]) / 2]);
  });

  it('put the hip centres where the person has them', () => {
    // The generated people are built on Harrington 2007 with the PSIS; lower-limb-medial-20 uses the same regression.
    for (const seed of [1, 2, 3, 4, 5]) {
      const person = standingPerson(describeOrdinaryPerson(seed));
      const { point } = geometryOf(person.markers, medial20);
      expectClose(point(hipName(medial20, 'right')), person.right.hip, 0.01);
      expectClose(point(hipName(medial20, 'left')), person.left.hip, 0.01);
    }
  });

  it('take the first of several that is there', () => {
    const name = wands22.virtualPoints.find((one) => one.construct === 'first-of' && one.name.includes('hipTop'))!.name;
    const whole = geometryOf(symmetricAdult());
    expectClose(whole.point(name), whole.point(hipName(wands22, name.startsWith('R_') ? 'right' : 'left')));
    const noSacrum = geometryOf(without('S1'));
    const trochanter = name.startsWith('R_') ? 'R_GT' : 'L_GT';
    expectClose(noSacrum.point(name), noSacrum.point(trochanter));
    expect(noSacrum.geometry.has(hipName(wands22, 'right'))).toBe(false);
  });

  it('are not there when a point they need is not', () => {
    const { geometry } = geometryOf(without('L_ACR'));
    expect([geometry.has('midAcromia'), geometry.has('trunkTop'), geometry.has('midHeels')]).toEqual([
      false,
      false,
      true,
    ]);
  });
});

function hipName(set: MarkerSet, side: 'right' | 'left'): string {
  return set.virtualPoints.find((point) => point.construct === 'hip-centre' && point.side === side)!.name;
}

describe('views', () => {
  const viewName = (side: 'right' | 'left', part: string) =>
    wands22.views.find((view) => view.side === side && view.name.includes(part))!.name;
  const turnDeg = (view: Vec3, outward: number) => Math.atan2(-view[0], outward * view[1]) * degrees;

  it('come from the markers of the joint where those are on', () => {
    const { geometry, view } = geometryOf(symmetricAdult({ right: { kneeTurnDeg: 11 }, left: { kneeTurnDeg: -4 } }));
    expect(geometry.view(viewName('right', 'kneeAxis'))).toEqual({ from: 'markers', sdDeg: 0, ownSdDeg: 0 });
    expect(turnDeg(view(viewName('right', 'kneeAxis')), -1)).toBeCloseTo(11, 6);
    expect(turnDeg(view(viewName('left', 'kneeAxis')), 1)).toBeCloseTo(-4, 6);
  });

  const bare = without('R_ME', 'L_ME', 'R_MM', 'L_MM');

  it('come from what was recorded, outward positive on either side, with its uncertainty', () => {
    const session = sessionWith({ kneeTurnDeg: { right: 9, left: -6 }, tibialTorsionDeg: { right: 20, left: null } });
    const { geometry, view } = geometryOf(bare, wands22, session);
    expect(turnDeg(view(viewName('right', 'kneeAxis')), -1)).toBeCloseTo(9, 6);
    expect(turnDeg(view(viewName('left', 'kneeAxis')), 1)).toBeCloseTo(-6, 6);
    expect(geometry.view(viewName('right', 'kneeAxis'))).toEqual({ from: 'recorded', sdDeg: 3, ownSdDeg: 3 });
    // Torsion is turned from the knee axis: 9 + 20 degrees, and the two uncertainties add up.
    expect(turnDeg(view(viewName('right', 'malleolarAxis')), -1)).toBeCloseTo(29, 6);
    expect(geometry.view(viewName('right', 'malleolarAxis'))).toEqual({ from: 'recorded', sdDeg: 5, ownSdDeg: 4 });
  });

  it('are estimated where nothing tells', () => {
    const { geometry, view } = geometryOf(bare);
    expect(turnDeg(view(viewName('left', 'kneeAxis')), 1)).toBeCloseTo(2.5, 6);
    expect(turnDeg(view(viewName('left', 'malleolarAxis')), 1)).toBeCloseTo(31, 6);
    expect(geometry.view(viewName('left', 'kneeAxis'))).toEqual({ from: 'estimate', sdDeg: 8.9, ownSdDeg: 8.9 });
    expect(geometry.view(viewName('left', 'malleolarAxis')).sdDeg).toBeCloseTo(Math.hypot(8, 8.9), 9);
  });
});

describe('segment axes', () => {
  it.each(wands22.segments.map(({ name, side }) => [name, side] as const))(
    'of %s are square, right-handed and point outward',
    (name, side) => {
      for (const seed of [1, 2, 3]) {
        const { axis } = geometryOf(wellPlaced(seed));
        const [forward, up, outward] = [axis(name, 'forward'), axis(name, 'up'), axis(name, 'outward')];
        for (const [a, b] of [
          [forward, up],
          [up, outward],
          [outward, forward],
        ] as const)
          expect(dot(a, b)).toBeCloseTo(0, 9);
        for (const a of [forward, up, outward]) expect(dot(a, a)).toBeCloseTo(1, 9);
        expect(forward[0]).toBeGreaterThan(0.5);
        expect(up[2]).toBeGreaterThan(0.9);
        expect(outward[1] * (side === 'right' ? -1 : 1)).toBeGreaterThan(0.5);
      }
    },
  );

  it('run along the bone, the foot along its own line', () => {
    const { axis, point } = geometryOf(symmetricAdult());
    const shank = wands22.segments.find(({ name }) => name.includes('shank'))!.name;
    const side = shank.includes('right') ? 'R' : 'L';
    const [knee, ankle] = [point(`${side}_LE`), point(`${side}_LM`)];
    const up = axis(shank, 'up');
    expect(dot(up, [knee[0] - ankle[0], knee[1] - ankle[1], knee[2] - ankle[2]])).toBeCloseTo(distance(knee, ankle), 6);
    const foot = wands22.segments.find(({ name }) => name.includes('foot'))!.name;
    const footSide = foot.includes('right') ? 'R' : 'L';
    const [heel, forefoot] = [point(`${footSide}_HEEL`), point(`${footSide}_MET5`)];
    const forward = axis(foot, 'forward');
    expect(Math.atan2(forward[1], forward[0])).toBeCloseTo(Math.atan2(forefoot[1] - heel[1], forefoot[0] - heel[0]), 9);
  });
});

describe('body axes', () => {
  it('follow the ASIS, levelled, with the origin under their middle', () => {
    const { geometry, point } = geometryOf(displace(symmetricAdult(), 'R_ASIS', { up: 40, forward: 20 }));
    const { forward, left, up } = geometry.axes(
      inOrder(
        displace(symmetricAdult(), 'R_ASIS', { up: 40, forward: 20 }),
        wands22.markers.map((m) => m.label),
      ),
    );
    expect(left[2]).toBe(0);
    expect(up).toEqual([0, 0, 1]);
    expect(dot(forward, left)).toBeCloseTo(0, 12);
    const [r, l] = [point('R_ASIS'), point('L_ASIS')];
    expect((r[0] + l[0]) / 2).toBeCloseTo(0, 9);
    expect((r[1] + l[1]) / 2).toBeCloseTo(0, 9);
    expect(r[0]).toBeCloseTo(l[0], 9);
    expect(r[2] - l[2]).toBeCloseTo(40, 9);
  });

  it('fall back on the whole body where one ASIS is missing', () => {
    const { geometry, point } = geometryOf(without('L_ASIS'));
    expect(geometry.has('L_ASIS')).toBe(false);
    expectClose([point('R_ASIS')[0], point('R_ASIS')[1], 0], [0, 0, 0]);
  });
});
