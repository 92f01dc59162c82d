import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { bandOf, dataChanges } from '../../../src/core/gait-model/data-changes.ts';
import { distance, type Vec3 } from '../../../src/core/geometry/vector.ts';
import { type StandingBody, withMarkersAt } from '../../../src/core/pose/standing-body.ts';
import { emptySession, type Session } from '../../../src/core/session/session.ts';
import { standTrial } from '../../../src/core/stand-trial.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { medial20, wands22 } from '../../support/shipped-marker-sets.ts';
import { stand, withoutMedialMarkers } from '../rules/stand-person.ts';
import { bentBelow, independentAngles, independentLeg, type P } from './independent-model.ts';
import { moved, rightLeg, sizesOf } from './stand-model.ts';

/** The well-placed adult of the sample trials, as the check reads her from the file. */
function sampleAdult(): StandingBody {
  const bytes = readFileSync(new URL('../../../sample-trials/adult-well-placed.c3d', import.meta.url));
  const stood = standTrial(new Uint8Array(bytes), wands22, emptySession, null);
  if (!('body' in stood)) throw new RangeError('Nobody stands in the sample trial.');
  return stood.body;
}

/** The same body with one marker moved along its own axes (forward, left, up; mm). */
function shifted(body: StandingBody, label: string, by: P): StandingBody {
  const slot = body.geometry.lookup.point(label);
  const { forward, left, up } = body.geometry.axes(body.lab);
  const lab = body.lab.slice();
  for (const axis of [0, 1, 2]) {
    lab[slot + axis]! += by[0] * forward[axis]! + by[1] * left[axis]! + by[2] * up[axis]!;
  }
  return withMarkersAt(body, lab);
}

/** Markers of a body in its own axes, by label. */
function positionsOf(body: StandingBody): Map<string, Vec3> {
  return new Map(
    body.set.markers
      .map(({ label }, index): [string, Vec3] => [
        label,
        [...body.positions.subarray(index * 3, index * 3 + 3)] as Vec3,
      ])
      .filter(([, at]) => at.every(Number.isFinite)),
  );
}

describe('a thigh wand 10 mm forward on the sample adult', () => {
  const right = sampleAdult();
  const wrong = shifted(right, 'R_TW', [10, 0, 0]);
  const changes = dataChanges(wrong, right, emptySession)!;
  const before = positionsOf(right);
  const after = moved(before, 'R_TW', [10, 0, 0]);
  const independent = (name: 'hip rotation' | 'knee rotation' | 'knee flexion') =>
    independentAngles(rightLeg(after), sizesOf(before))[name] -
    independentAngles(rightLeg(before), sizesOf(before))[name];
  const told = (joint: string, motion: string) =>
    changes.angles.find((one) => one.joint === joint && one.motion === motion && one.side === 'right')!.deg;

  it('turns the hip as an independent computation says, to a tenth of a degree', () => {
    expect(Math.abs(-told('hip', 'rotation') - independent('hip rotation'))).toBeLessThan(0.1);
    expect(Math.abs(-told('knee', 'rotation') - independent('knee rotation'))).toBeLessThan(0.1);
    expect(Math.abs(-told('knee', 'flexion') - independent('knee flexion'))).toBeLessThan(0.1);
  });

  it('follows the rule of thumb: the angle under which 10 mm are seen from the line hip centre to epicondyle', () => {
    // Derived: 4.7 degrees at 150 mm from the bone; this adult's wand reaches less far from that line.
    const hip = wrong.geometry.lookup.point('R_hipCentre');
    const [h, k, w] = [[...right.positions.subarray(hip, hip + 3)] as Vec3, before.get('R_LE')!, before.get('R_TW')!];
    const along = distance(h, k);
    const [a, b] = [distance(w, h), distance(w, k)];
    const foot = (a * a - b * b + along * along) / (2 * along);
    const reach = Math.sqrt(a * a - foot * foot);
    expect(-told('hip', 'rotation')).toBeCloseTo((Math.atan(10 / reach) * 180) / Math.PI, 0);
    expect(changes.largestDeg).toBeGreaterThan(3.5);
    expect(changes.band).toBe('2-to-5');
  });

  it('leaks into varus at 60 degrees of flexion as a knee bent about its own axis shows', () => {
    const sizes = sizesOf(before);
    const { knee, thigh } = independentLeg(rightLeg(before), sizes);
    const flexion = independentAngles(rightLeg(before), sizes)['knee flexion'];
    const varus = (markers: MarkerPositions) =>
      independentAngles(bentBelow(rightLeg(markers), knee, thigh[1], 60 - flexion), sizes)['knee varus'];
    expect(
      independentAngles(bentBelow(rightLeg(before), knee, thigh[1], 60 - flexion), sizes)['knee flexion'],
    ).toBeCloseTo(60, 6);
    expect(changes.crossTalk).toHaveLength(1);
    expect(changes.crossTalk[0]).toMatchObject({ side: 'right', atFlexionDeg: 60 });
    expect(Math.abs(changes.crossTalk[0]!.varusDeg - (varus(before) - varus(after)))).toBeLessThan(0.01);
    // An axis turned by e about the bone shows asin(sin e sin 60) of varus; the knee centre moves a little with it.
    const turn = (told('hip', 'rotation') * Math.PI) / 180;
    const simple = (Math.asin(Math.sin(turn) * Math.sin(Math.PI / 3)) * 180) / Math.PI;
    expect(Math.abs(changes.crossTalk[0]!.varusDeg - simple)).toBeLessThan(0.3);
  });
});

describe('what a way changes', () => {
  const adult = symmetricAdult();
  const changesOf = (label: string, by: P, set = wands22, session: Session = emptySession, on = adult) =>
    dataChanges(stand(moved(on, label, by), { set, session }), stand(on, { set, session }), session)!;

  it('is nothing for a marker that only guides', () => {
    expect(changesOf('R_GT', [20, 0, 20])).toMatchObject({ angles: [], crossTalk: [], largestDeg: 0, band: 'under-2' });
  });

  it('is nothing for a wand where the medial markers give the axes', () => {
    expect(changesOf('R_TW', [15, 0, 0], medial20).largestDeg).toBe(0);
    const byMedial = changesOf('R_ME', [-10, 0, 0], medial20).angles;
    expect(
      byMedial
        .slice(0, 2)
        .map(({ joint, motion }) => `${joint} ${motion}`)
        .sort(),
    ).toEqual(['hip rotation', 'knee rotation']);
  });

  it('is told for the leg it is on, and for both where the pelvis moves', () => {
    expect(new Set(changesOf('L_SW', [10, 0, 0]).angles.map(({ side }) => side))).toEqual(new Set(['left']));
    const sides = changesOf('S1', [0, 0, 20]).angles.map(({ side }) => side);
    expect(new Set(sides)).toEqual(new Set(['midline', 'right', 'left']));
  });

  it('is told against where the pelvis faced before: a shifted ASIS turns the pelvis, not the feet', () => {
    const { angles } = changesOf('R_ASIS', [10, 0, 0]);
    const deg = (joint: string, motion: string) =>
      angles.find((one) => one.joint === joint && one.motion === motion)?.deg;
    expect(deg('pelvis', 'rotation')).toBeCloseTo(-(Math.atan(10 / 250) * 180) / Math.PI, 0);
    expect(deg('foot', 'progression')).toBeUndefined();
  });

  it('stands in the order of its size, and takes its band from the largest', () => {
    const { angles, crossTalk, largestDeg, band } = changesOf('R_LE', [12, -3, 0]);
    const sizes = angles.map(({ deg }) => Math.abs(deg));
    expect(sizes).toEqual(sizes.toSorted((a, b) => b - a));
    expect(largestDeg).toBe(Math.max(...sizes, ...crossTalk.map(({ varusDeg }) => Math.abs(varusDeg))));
    expect(band).toBe(bandOf(largestDeg));
    expect([1.99, 2, 5, 5.01].map(bandOf)).toEqual(['under-2', '2-to-5', '2-to-5', 'over-5']);
  });

  it('names the lengths that were estimated, and none that was measured', () => {
    const bare = withoutMedialMarkers(adult);
    const tall: Session = {
      ...emptySession,
      measurements: [{ measure: 'stature', side: null, value: 170, unit: 'cm' }],
    };
    const from = (session: Session, on = bare) =>
      changesOf('R_TW', [10, 0, 0], wands22, session, on).estimated.map(
        (one) => `${one.measure} ${one.side} ${one.from}`,
      );
    expect(from(emptySession)).toEqual([
      'kneeDiameter right shank',
      'ankleDiameter right shank',
      'kneeDiameter left shank',
      'ankleDiameter left shank',
    ]);
    expect(from(tall)[0]).toBe('kneeDiameter right stature');
    expect(from(emptySession, adult)).toEqual([]);
    const measurements = (['kneeDiameter', 'ankleDiameter'] as const).flatMap((measure) =>
      (['right', 'left'] as const).map((side) => ({ measure, side, value: 90, unit: 'mm' as const })),
    );
    expect(from({ ...emptySession, measurements })).toEqual([]);
  });

  it('depends little on the width of the knee: docs/degrees-at-stake.md says how little', () => {
    const withKnee = (value: number): Session => ({
      ...emptySession,
      measurements: (['right', 'left'] as const).map((side) => ({ measure: 'kneeDiameter', side, value, unit: 'mm' })),
    });
    const [narrow, wide] = [90, 105].map((mm) => changesOf('R_TW', [10, 0, 0], wands22, withKnee(mm)).angles) as [
      ReturnType<typeof changesOf>['angles'],
      ReturnType<typeof changesOf>['angles'],
    ];
    for (const angle of narrow) {
      const other = wide.find((one) => one.joint === angle.joint && one.motion === angle.motion);
      expect(Math.abs((other?.deg ?? 0) - angle.deg)).toBeLessThan(0.5);
    }
    expect(narrow).not.toEqual(wide);
  });

  it('is unknown where the set names no model', () => {
    const set = { ...wands22, model: null };
    expect(dataChanges(stand(adult, { set }), stand(adult, { set }), emptySession)).toBeNull();
  });
});
