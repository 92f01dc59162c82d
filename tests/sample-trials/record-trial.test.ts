import { describe, expect, it } from 'vitest';
import { describePerson } from '../../sample-trials/person-description.ts';
import { type Recording, recordTrial, type SwayingBody } from '../../sample-trials/record-trial.ts';
import { seededRandom } from '../../sample-trials/seeded-random.ts';
import { standingPerson } from '../../sample-trials/standing-person.ts';
import { distance, type Vec3 } from '../../src/core/geometry/vector.ts';

const stands = standingPerson(describePerson({ statureMm: 1750, sex: 'male', ageYears: 30 }, seededRandom(1)));
const body: SwayingBody = { ankleForwardMm: stands.right.ankle[0], ankleHeightMm: 90, massCentreHeightMm: 960 };
const labels = ['R_HEEL', 'L_MM', 'R_LE', 'R_ASIS', 'L_ASIS', 'S1', 'C7'];

function film(setting: Partial<Recording>, seed = 2) {
  const recording: Recording = {
    rateHz: 100,
    seconds: 3,
    vertical: '+Z',
    units: 'mm',
    headingDeg: 0,
    standsAtMm: [0, 0],
    motion: 'quiet',
    hidden: [],
    ...setting,
  };
  const trial = recordTrial(stands.markers, labels, body, recording, seededRandom(seed));
  const { values, pointCount, frameCount } = trial.contents;
  const track = (label: string, from = 0, to = frameCount): Vec3[] => {
    const point = labels.indexOf(label);
    const frames: Vec3[] = [];
    for (let frame = from; frame < to; frame += 1) {
      const index = (frame * pointCount + point) * 4;
      if (values[index + 3]! >= 0) frames.push([values[index]!, values[index + 1]!, values[index + 2]!]);
    }
    return frames;
  };
  return { ...trial, track };
}

function mean(track: readonly Vec3[]): Vec3 {
  return [0, 1, 2].map((axis) => track.reduce((sum, at) => sum + at[axis]!, 0) / track.length) as Vec3;
}

function spreadMm(track: readonly Vec3[]): number {
  const centre = mean(track);
  return Math.sqrt(track.reduce((sum, at) => sum + distance(at, centre) ** 2, 0) / track.length);
}

function rangeMm(track: readonly Vec3[]): number {
  const ranges = [0, 1, 2].map((axis) => {
    const values = track.map((at) => at[axis]!);
    return Math.max(...values) - Math.min(...values);
  });
  return Math.max(...ranges);
}

describe('a recorded trial', () => {
  it('shows every marker on average where it was placed', () => {
    const { track } = film({});
    for (const label of labels) expect(distance(mean(track(label)), stands.markers.get(label)!)).toBeLessThan(0.1);
  });

  it('sways more the higher a marker sits, on feet that stand still', () => {
    for (const seed of [2, 3, 4, 5, 6]) {
      const { track } = film({}, seed);
      expect(spreadMm(track('R_HEEL'))).toBeLessThan(0.3);
      expect(spreadMm(track('L_MM'))).toBeLessThan(0.3);
      expect(spreadMm(track('R_LE'))).toBeGreaterThan(spreadMm(track('R_HEEL')));
      expect(spreadMm(track('S1'))).toBeGreaterThan(1.5);
      expect(spreadMm(track('S1'))).toBeLessThan(8);
      expect(spreadMm(track('C7'))).toBeGreaterThan(spreadMm(track('S1')));
    }
  });

  it('keeps the body in one piece while it sways', () => {
    const { track } = film({});
    const right = track('R_ASIS');
    const left = track('L_ASIS');
    const widthMm = distance(stands.markers.get('R_ASIS')!, stands.markers.get('L_ASIS')!);
    for (let frame = 0; frame < right.length; frame += 10) {
      expect(Math.abs(distance(right[frame]!, left[frame]!) - widthMm)).toBeLessThan(1);
    }
  });

  it('faces where it is told, in millimetres or metres, Z or Y up, without a mirror in between', () => {
    const [forward, left, up] = stands.markers.get('L_ASIS')!;
    const turned = film({ headingDeg: 90, standsAtMm: [100, 200] });
    expect(distance(mean(turned.track('L_ASIS')), [100 - left, 200 + forward, up])).toBeLessThan(0.1);
    const tipped = film({ headingDeg: 90, standsAtMm: [100, 200], vertical: '+Y', units: 'm' });
    const inMm = mean(tipped.track('L_ASIS')).map((metres) => metres * 1000) as Vec3;
    expect(distance(inMm, [100 - left, up, -200 - forward])).toBeLessThan(0.1);
    expect(tipped.contents.units).toBe('m');
    expect(tipped.contents.screen).toEqual({ x: '+X', y: '+Y' });
  });

  it('hides a marker in the frames asked for and marks a label without position as never seen', () => {
    const { contents, track } = film({ hidden: [{ label: 'S1', from: 20, frames: 7 }] });
    expect(track('S1')).toHaveLength(293);
    expect(track('S1', 20, 27)).toHaveLength(0);
    expect(contents.values[(20 * labels.length + labels.indexOf('S1')) * 4 + 3]).toBe(-1);
    const blind = recordTrial(
      new Map(),
      ['R_MET5'],
      body,
      {
        rateHz: 100,
        seconds: 1,
        vertical: '+Z',
        units: 'mm',
        headingDeg: 0,
        standsAtMm: [0, 0],
        motion: 'quiet',
        hidden: [],
      },
      seededRandom(1),
    );
    expect([...blind.contents.values.slice(0, 4)]).toEqual([0, 0, 0, -1]);
  });

  it('comes in with a step from behind and then stands still', () => {
    const { track, stillFromFrame, contents } = film({ motion: 'step-in', seconds: 5 });
    expect(stillFromFrame).toBe(260);
    expect(stands.markers.get('R_HEEL')![0] - track('R_HEEL')[0]![0]).toBeGreaterThan(370);
    expect(rangeMm(track('C7', 0, 120))).toBeGreaterThan(300);
    expect(spreadMm(track('R_HEEL', 260))).toBeLessThan(0.3);
    expect(distance(mean(track('S1', 260, contents.frameCount)), stands.markers.get('S1')!)).toBeLessThan(0.2);
  });

  it('never rests when restless: the pelvis moves by more than 15 mm within any half second, the left foot stays', () => {
    const { track, stillFromFrame, contents } = film({ motion: 'restless', seconds: 4 });
    expect(stillFromFrame).toBeNull();
    for (let from = 0; from + 50 <= contents.frameCount; from += 1) {
      expect(rangeMm(track('S1', from, from + 50))).toBeGreaterThan(15);
    }
    expect(rangeMm(track('L_MM'))).toBeLessThan(2);
  });
});
