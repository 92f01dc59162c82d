import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type MarkerPositions,
  MIDLINE_LANDMARKS,
  markerLabel,
  outwardSign,
  SIDE_LANDMARKS,
  SIDES,
  type Side,
  type SideLandmark,
} from '../../sample-trials/landmarks.ts';
import { describePerson, type GivenTraits, mirrorPerson } from '../../sample-trials/person-description.ts';
import { placeByHand } from '../../sample-trials/place-by-hand.ts';
import { displace, remove, swapLabels, swapSides, turnWand } from '../../sample-trials/plant-fault.ts';
import { seededRandom } from '../../sample-trials/seeded-random.ts';
import { standingPerson } from '../../sample-trials/standing-person.ts';
import { cross, direction, distance, dot, midpoint, subtract, type Vec3 } from '../../src/core/geometry/vector.ts';

const MAN: GivenTraits = { statureMm: 1756, sex: 'male', ageYears: 30 };
const WOMAN: GivenTraits = { statureMm: 1628, sex: 'female', ageYears: 30 };
const GIRL: GivenTraits = { statureMm: 1224, sex: 'female', ageYears: 7 };

/** People of all sizes, with whatever the seed draws for the rest. */
const person = fc
  .record({
    statureMm: fc.integer({ min: 1100, max: 2000 }),
    sex: fc.constantFrom('male' as const, 'female' as const),
    ageYears: fc.integer({ min: 5, max: 80 }),
    seed: fc.nat(1e6),
  })
  .map(({ seed, ...traits }) => describePerson(traits, seededRandom(seed)));

function at(markers: MarkerPositions, side: Side, landmark: SideLandmark): Vec3 {
  return markers.get(markerLabel(side, landmark))!;
}

/** Distance of a point from the plane through `through` that holds two directions. */
function offPlaneMm(point: Vec3, through: Vec3, one: Vec3, other: Vec3): number {
  return dot(direction(cross(one, other))!, subtract(point, through));
}

/** Distance of a point from the line through two others. */
function offLineMm(point: Vec3, from: Vec3, to: Vec3): number {
  const along = direction(subtract(to, from))!;
  const across = cross(along, subtract(point, from));
  return Math.sqrt(dot(across, across));
}

function angleDeg(one: Vec3, other: Vec3): number {
  return (Math.acos(dot(direction(one)!, direction(other)!)) * 180) / Math.PI;
}

describe('a standing person', () => {
  it('has every label of both marker sets, once, above the floor', () => {
    const { markers } = standingPerson(describePerson(MAN, seededRandom(1)));
    const labels = [
      ...MIDLINE_LANDMARKS,
      ...SIDES.flatMap((side) => SIDE_LANDMARKS.map((landmark) => markerLabel(side, landmark))),
    ];
    expect([...markers.keys()].sort()).toEqual(labels.sort());
    for (const [, , up] of markers.values()) expect(up).toBeGreaterThan(15);
  });

  it('carries each wand tip exactly in the plane of its marker line and the joint axis', () => {
    fc.assert(
      fc.property(person, (description) => {
        const { markers } = standingPerson(description);
        for (const side of SIDES) {
          const [gt, le, me, tw] = (['GT', 'LE', 'ME', 'TW'] as const).map((name) => at(markers, side, name));
          expect(offPlaneMm(tw!, le!, subtract(gt!, le!), subtract(le!, me!))).toBeCloseTo(0, 6);
          const [hf, lm, mm, sw] = (['HF', 'LM', 'MM', 'SW'] as const).map((name) => at(markers, side, name));
          expect(offPlaneMm(sw!, lm!, subtract(hf!, lm!), subtract(lm!, mm!))).toBeCloseTo(0, 6);
        }
      }),
    );
  });

  it('has thigh wand tips 80 to 110 mm and shank wand tips 70 to 100 mm outside, at mid-segment', () => {
    for (const traits of [MAN, WOMAN, GIRL]) {
      const { markers } = standingPerson(describePerson(traits, seededRandom(2)));
      for (const side of SIDES) {
        const outward = outwardSign(side);
        const [gt, le, tw] = (['GT', 'LE', 'TW'] as const).map((name) => at(markers, side, name));
        const [hf, lm, sw] = (['HF', 'LM', 'SW'] as const).map((name) => at(markers, side, name));
        const thighMm = offLineMm(tw!, gt!, le!);
        const shankMm = offLineMm(sw!, hf!, lm!);
        expect(thighMm).toBeGreaterThanOrEqual(80);
        expect(thighMm).toBeLessThanOrEqual(110);
        expect(shankMm).toBeGreaterThanOrEqual(70);
        expect(shankMm).toBeLessThanOrEqual(100);
        expect(distance(tw!, gt!)).toBeCloseTo(distance(tw!, le!), 6);
        expect(distance(sw!, hf!)).toBeCloseTo(distance(sw!, lm!), 6);
        expect(outward * (tw![1] - midpoint(gt!, le!)[1])).toBeGreaterThan(70);
        expect(outward * (sw![1] - midpoint(hf!, lm!)[1])).toBeGreaterThan(50);
      }
    }
  });

  it('has heel and fifth metatarsal marker at exactly one height, and the second higher', () => {
    fc.assert(
      fc.property(person, (description) => {
        const { markers } = standingPerson(description);
        for (const side of SIDES) {
          expect(at(markers, side, 'HEEL')[2]).toBe(at(markers, side, 'MET5')[2]);
          expect(at(markers, side, 'MET2')[2]).toBeGreaterThan(at(markers, side, 'MET5')[2]);
        }
      }),
    );
    const man = standingPerson(describePerson(MAN, seededRandom(3))).markers;
    expect(at(man, 'left', 'HEEL')[2]).toBeCloseTo(32.5, 1);
  });

  it('levels the heel of a supinated foot with the second metatarsal head, higher than on the other side', () => {
    const { markers } = standingPerson(describePerson({ ...MAN, left: { footSupinationDeg: 14 } }, seededRandom(4)));
    expect(at(markers, 'left', 'HEEL')[2]).toBeCloseTo(at(markers, 'left', 'MET2')[2], 9);
    expect(at(markers, 'left', 'HEEL')[2] - at(markers, 'right', 'HEEL')[2]).toBeGreaterThan(15);
  });

  it('has the knee, torsion, foot and pelvic slope that were asked for', () => {
    fc.assert(
      fc.property(person, (drawn) => {
        const description = { ...drawn, sacralLeftMm: 0 };
        const { markers } = standingPerson(description);
        for (const side of SIDES) {
          const outward = outwardSign(side);
          const knee = subtract(at(markers, side, 'LE'), at(markers, side, 'ME'));
          const turn = (Math.atan2(-knee[0], outward * knee[1]) * 180) / Math.PI;
          expect(turn).toBeCloseTo(description[side].kneeTurnDeg, 9);
          const foot = subtract(at(markers, side, 'MET2'), at(markers, side, 'HEEL'));
          const footTurn = (Math.atan2(outward * foot[1], foot[0]) * 180) / Math.PI;
          expect(footTurn).toBeCloseTo(description[side].footProgressionDeg, 9);

          // Torsion: both axes seen along the shank.
          const upTheShank = direction(
            subtract(
              midpoint(at(markers, side, 'LE'), at(markers, side, 'ME')),
              midpoint(at(markers, side, 'LM'), at(markers, side, 'MM')),
            ),
          )!;
          const ankle = subtract(at(markers, side, 'LM'), at(markers, side, 'MM'));
          const kneeNormal = cross(upTheShank, knee);
          const ankleNormal = cross(upTheShank, ankle);
          expect(angleDeg(kneeNormal, ankleNormal)).toBeCloseTo(description[side].tibialTorsionDeg, 6);
          expect(outward * dot(cross(kneeNormal, ankleNormal), upTheShank)).toBeGreaterThan(0);
        }
        const midAsis = midpoint(markers.get('R_ASIS')!, markers.get('L_ASIS')!);
        const sacral = markers.get('S1')!;
        const slope = (Math.atan2(sacral[2] - midAsis[2], midAsis[0] - sacral[0]) * 180) / Math.PI;
        expect(slope).toBeCloseTo(description.pelvicSlopeDeg, 9);
        expect(distance(sacral, midpoint(markers.get('R_PSIS')!, markers.get('L_PSIS')!))).toBeCloseTo(0, 9);
        expect(midAsis[0]).toBeCloseTo(0, 9);
        expect(midAsis[1]).toBeCloseTo(0, 9);
        expect(markers.get('R_ASIS')![0]).toBeCloseTo(markers.get('L_ASIS')![0], 9);
      }),
    );
  });

  it('has joint centres between their markers, knees as bent as asked, on legs of the right length', () => {
    fc.assert(
      fc.property(person, (description) => {
        const stands = standingPerson(description);
        for (const side of SIDES) {
          const { hip, knee, ankle } = stands[side];
          const marker = (landmark: SideLandmark) => at(stands.markers, side, landmark);
          expect(distance(knee, midpoint(marker('LE'), marker('ME')))).toBeCloseTo(0, 9);
          expect(distance(ankle, midpoint(marker('LM'), marker('MM')))).toBeCloseTo(0, 9);
          expect(angleDeg(subtract(hip, knee), subtract(knee, ankle))).toBeCloseTo(
            Math.abs(description[side].kneeFlexionDeg),
            5,
          );
          const thighMm =
            stands.sizes.trochanterHeightMm - stands.sizes.epicondyleHeightMm + description[side].thighExtraMm;
          expect(distance(hip, knee)).toBeCloseTo(thighMm, 6);
          // The epicondylar axis is the hinge: square to thigh and shank.
          const axis = subtract(marker('LE'), marker('ME'));
          expect(dot(axis, subtract(hip, knee))).toBeCloseTo(0, 5);
          expect(dot(axis, subtract(knee, ankle))).toBeCloseTo(0, 5);
        }
      }),
    );
  });

  it('has hip centres where Harrington 2007 puts them from ASIS and PSIS', () => {
    // J Biomech 40:595-602, simple form: x anterior, y cranial, z lateral from mid-ASIS, mm.
    const { markers, right, left } = standingPerson(describePerson(WOMAN, seededRandom(5)));
    const rightAsis = markers.get('R_ASIS')!;
    const leftAsis = markers.get('L_ASIS')!;
    const origin = midpoint(rightAsis, leftAsis);
    const lateral = direction(subtract(rightAsis, leftAsis))!;
    const midPsis = midpoint(markers.get('R_PSIS')!, markers.get('L_PSIS')!);
    const anterior = direction(subtract(origin, midPsis))!;
    const cranial = cross(lateral, anterior);
    const widthMm = distance(rightAsis, leftAsis);
    const depthMm = distance(origin, midPsis);
    for (const [hip, outward] of [
      [right.hip, 1],
      [left.hip, -1],
    ] as const) {
      const fromAsis = subtract(hip, origin);
      expect(dot(fromAsis, anterior)).toBeCloseTo(-0.24 * depthMm - 9.9, 6);
      expect(dot(fromAsis, cranial)).toBeCloseTo(-0.3 * widthMm - 10.9, 6);
      expect(outward * dot(fromAsis, lateral)).toBeCloseTo(0.33 * widthMm + 7.3, 6);
    }
  });

  it('has the trochanter outside and a little behind the hip, the fibular head below and behind the epicondyle', () => {
    for (const traits of [MAN, WOMAN, GIRL]) {
      const stands = standingPerson(describePerson(traits, seededRandom(6)));
      for (const side of SIDES) {
        const toTrochanter = subtract(at(stands.markers, side, 'GT'), stands[side].hip);
        expect(toTrochanter[0]).toBeCloseTo((-10 * traits.statureMm) / 1756, 6);
        expect(outwardSign(side) * toTrochanter[1]).toBeGreaterThan(50);
        const leg = stands[side];
        const upTheShank = direction(subtract(leg.knee, leg.ankle))!;
        const toFibula = subtract(at(stands.markers, side, 'HF'), at(stands.markers, side, 'LE'));
        expect(-dot(toFibula, upTheShank)).toBeGreaterThan(20);
        expect(-dot(toFibula, upTheShank)).toBeLessThan(35);
        expect(toFibula[0]).toBeLessThan(-8);
        expect(toFibula[0]).toBeGreaterThan(-25);
      }
    }
  });

  it('stands nearly upright: shoulders a little behind the hips, C7 behind the shoulders', () => {
    const stands = standingPerson(describePerson({ ...MAN, trunkLeanDeg: -2.5 }, seededRandom(7)));
    const shoulders = midpoint(stands.markers.get('R_ACR')!, stands.markers.get('L_ACR')!);
    const hips = midpoint(stands.right.hip, stands.left.hip);
    expect(shoulders[0] - hips[0]).toBeCloseTo(-(shoulders[2] - hips[2]) * Math.tan((2.5 * Math.PI) / 180), 6);
    expect(shoulders[0] - stands.markers.get('C7')![0]).toBeGreaterThan(50);
  });

  it('turns into its mirror image when right and left are exchanged', () => {
    fc.assert(
      fc.property(person, (description) => {
        const { markers } = standingPerson(description);
        const mirrored = standingPerson(mirrorPerson(description)).markers;
        for (const [label, [forward, left, up]] of markers) {
          const other = label.replace(/^[RL]_/, (prefix) => (prefix === 'R_' ? 'L_' : 'R_'));
          expect(distance(mirrored.get(other)!, [forward, -left, up])).toBeCloseTo(0, 6);
        }
      }),
    );
  });

  // ANSUR II 2012 (Gordon et al. 2014, NATICK/TR-15/007): P1 and P99 of each measure as a share of stature, computed from
  // the public data; thigh and shank lengths in mm at mean stature.
  const ansur = {
    male: {
      c7: [0.847, 0.879],
      acromion: [0.797, 0.842],
      trochanter: [0.481, 0.552],
      epicondyle: [0.262, 0.299],
      malleolus: [0.035, 0.048],
      biacromial: [0.213, 0.26],
      footLength: [0.143, 0.167],
      bimalleolar: [0.038, 0.048],
      thighMm: [346, 479],
      shankMm: [366, 479],
    },
    female: {
      c7: [0.84, 0.873],
      acromion: [0.799, 0.84],
      trochanter: [0.486, 0.554],
      epicondyle: [0.262, 0.308],
      malleolus: [0.032, 0.045],
      biacromial: [0.201, 0.247],
      footLength: [0.139, 0.164],
      bimalleolar: [0.037, 0.046],
      thighMm: [326, 437],
      shankMm: [345, 468],
    },
  } as const;

  it.each([MAN, WOMAN])('has the proportions of the surveyed $sex bodies, within P1 to P99', (traits) => {
    const limits = ansur[traits.sex];
    for (let seed = 0; seed < 40; seed += 1) {
      const { markers, sizes, description } = standingPerson(describePerson(traits, seededRandom(seed)));
      const radiusMm = description.markerRadiusMm;
      const share = (mm: number) => mm / traits.statureMm;
      const within = (value: number, [low, high]: readonly [number, number], what: string) => {
        expect(value, what).toBeGreaterThanOrEqual(low);
        expect(value, what).toBeLessThanOrEqual(high);
      };
      within(share(markers.get('C7')![2]), limits.c7, 'C7 height');
      within(share(sizes.biacromialMm), limits.biacromial, 'biacromial breadth');
      within(share(sizes.footLengthMm), limits.footLength, 'foot length');
      for (const side of SIDES) {
        const marker = (landmark: SideLandmark) => at(markers, side, landmark);
        within(share(marker('ACR')[2] - radiusMm), limits.acromion, 'acromial height');
        within(share(marker('GT')[2]), limits.trochanter, 'trochanter height');
        within(share(marker('LE')[2]), limits.epicondyle, 'epicondyle height');
        within(share(marker('LM')[2]), limits.malleolus, 'malleolus height');
        within(share(distance(marker('LM'), marker('MM')) - 2 * radiusMm), limits.bimalleolar, 'bimalleolar breadth');
        within(marker('GT')[2] - marker('LE')[2], limits.thighMm, 'trochanter to epicondyle');
        within(marker('LE')[2] - marker('LM')[2], limits.shankMm, 'epicondyle to malleolus');
      }
    }
  });

  it('stands a child of seven with the ASIS at about .98 of the sitting height', () => {
    // Brush Foundation children: .98, SD .13. Sitting height about .55 of stature at seven: from memory.
    const { markers } = standingPerson(describePerson(GIRL, seededRandom(8)));
    expect(markers.get('R_ASIS')![2] / (0.55 * GIRL.statureMm)).toBeCloseTo(0.98, 1);
  });
});

describe('placing by hand', () => {
  it('leaves wands within a degree, heels within a millimetre, palpated markers about 3 mm off', () => {
    let squares = 0;
    let count = 0;
    for (let seed = 0; seed < 60; seed += 1) {
      const random = seededRandom(seed);
      const stands = standingPerson(describePerson(MAN, random));
      const placed = placeByHand(stands, random);
      expect(placed.get('R_ASIS')![0]).toBeCloseTo(0, 9);
      expect(placed.get('L_ASIS')![0]).toBeCloseTo(0, 9);
      for (const side of SIDES) {
        const [gt, le, me, tw] = (['GT', 'LE', 'ME', 'TW'] as const).map((name) => at(placed, side, name));
        const offThigh = offPlaneMm(tw!, le!, subtract(gt!, le!), subtract(le!, me!));
        expect(Math.abs(offThigh)).toBeLessThan(98 * Math.sin(Math.PI / 180));
        const heelMm = at(placed, side, 'HEEL')[2] - at(placed, side, 'MET5')[2];
        expect(Math.abs(heelMm)).toBeLessThan(1);
        // Seen between two markers of one bone, so that the turn to the placed axes does not count.
        const widthMm = distance(le!, me!) - distance(at(stands.markers, side, 'LE'), at(stands.markers, side, 'ME'));
        expect(Math.abs(widthMm)).toBeLessThan(3);
        const heightMm = at(placed, side, 'HF')[2] - at(stands.markers, side, 'HF')[2];
        squares += heightMm ** 2;
        count += 1;
      }
    }
    const rmsMm = Math.sqrt((2 * squares) / count);
    expect(rmsMm).toBeGreaterThan(2.2);
    expect(rmsMm).toBeLessThan(3.4);
  });
});

describe('planting a fault', () => {
  const placed = standingPerson(describePerson(MAN, seededRandom(9))).markers;

  it('displaces one marker by what was asked and no other', () => {
    const moved = displace(placed, 'L_HEEL', { up: -11 });
    const [forward, left, up] = placed.get('L_HEEL')!;
    expect(moved.get('L_HEEL')).toEqual([forward, left, up - 11]);
    for (const [label, position] of placed) if (label !== 'L_HEEL') expect(moved.get(label)).toEqual(position);
  });

  it.each(['right', 'left'] as const)('turns a wand on the %s forward by the angle asked for', (side) => {
    for (const wand of ['TW', 'SW'] as const) {
      const turned = turnWand(placed, side, wand, 9);
      const [top, bottom] = (wand === 'TW' ? (['GT', 'LE'] as const) : (['HF', 'LM'] as const)).map((name) =>
        at(placed, side, name),
      );
      const before = at(placed, side, wand);
      const after = at(turned, side, wand);
      const offsetMm = offLineMm(before, top!, bottom!);
      expect(offLineMm(after, top!, bottom!)).toBeCloseTo(offsetMm, 9);
      expect(distance(before, after)).toBeCloseTo(2 * offsetMm * Math.sin((4.5 * Math.PI) / 180), 9);
      expect(dot(subtract(after, before), subtract(bottom!, top!))).toBeCloseTo(0, 6);
      expect(after[0]).toBeGreaterThan(before[0] + 8);
      expect(distance(at(turnWand(turned, side, wand, -9), side, wand), before)).toBeCloseTo(0, 9);
    }
  });

  it('exchanges labels, one pair or all, and takes a marker away', () => {
    const swapped = swapLabels(placed, 'R_LE', 'L_LE');
    expect(swapped.get('R_LE')).toEqual(placed.get('L_LE'));
    expect(swapped.get('L_LE')).toEqual(placed.get('R_LE'));
    const sides = swapSides(placed);
    for (const [label, position] of placed) {
      const other = label.replace(/^[RL]_/, (prefix) => (prefix === 'R_' ? 'L_' : 'R_'));
      expect(sides.get(other)).toEqual(position);
    }
    expect(remove(placed, 'R_MET5').has('R_MET5')).toBe(false);
    expect(() => remove(placed, 'R_XYZ')).toThrow(RangeError);
  });
});
