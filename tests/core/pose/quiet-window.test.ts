import { describe, expect, it } from 'vitest';
import { recordTrial } from '../../../sample-trials/record-trial.ts';
import { seededRandom } from '../../../sample-trials/seeded-random.ts';
import { readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { writeC3d } from '../../../src/core/c3d/write-c3d.ts';
import { meanOverBlocks, sumBlocks } from '../../../src/core/pose/motion-blocks.ts';
import { findQuietWindow } from '../../../src/core/pose/quiet-window.ts';
import { movingTrial, type Path } from '../../support/moving-points.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';
import { checkBytes, checkPositions, ruleValue, stillContents } from '../../support/still-trial.ts';

const quietMm = 1.5;

function quietest(paths: readonly Path[], frameCount: number, rateHz = 100) {
  const points = paths.map((_, index) => index);
  const file = movingTrial(paths, frameCount, { rateHz });
  return findQuietWindow(sumBlocks(file, points, rateHz), frameCount, rateHz, quietMm);
}

/** Shakes by `sizeMm` until `untilFrame`, then rests. */
const shakesThenRests =
  (untilFrame: number, sizeMm: number, start = 0): Path =>
  (frame) => [start + (frame < untilFrame ? sizeMm * Math.sin(frame / 7) : 0), 0, 900];

describe('sumBlocks', () => {
  it('adds up to the mean of the valid frames, whatever the blocks', () => {
    const file = movingTrial([(frame) => (frame % 5 === 0 ? null : [5000 + frame, -frame, 3]), () => null], 103);
    const motion = sumBlocks(file, [0, 1, -1], 100);
    expect([motion.framesPerBlock, motion.blocks]).toEqual([25, 5]);
    const seen = Array.from({ length: 103 }, (_, frame) => frame).filter((frame) => frame % 5 !== 0);
    const mean = seen.reduce((sum, frame) => sum + frame, 0) / seen.length;
    const means = meanOverBlocks(motion, 0, motion.blocks);
    expect(means[0]).toBeCloseTo(5000 + mean, 6);
    expect(means[1]).toBeCloseTo(-mean, 6);
    expect([...means.subarray(3)].every(Number.isNaN)).toBe(true);
    expect(motion.counts.reduce((sum, count) => sum + count, 0)).toBe(seen.length);
  });
});

describe('findQuietWindow', () => {
  it('passes over the part in which somebody moves', () => {
    const { first, count, sway } = quietest([shakesThenRests(240, 30), shakesThenRests(240, 20)], 600);
    expect(first).toBeGreaterThanOrEqual(240);
    expect(first + count).toBeLessThanOrEqual(600);
    expect(count).toBeGreaterThanOrEqual(300);
    expect(sway).toBeCloseTo(0, 3);
  });

  it('takes no more than five seconds, and all of a trial that is shorter', () => {
    const rests: Path = () => [1, 2, 3];
    expect(quietest([rests], 2000).count).toBe(500);
    expect(quietest([rests], 310)).toMatchObject({ first: 0, count: 310 });
    expect(quietest([rests], 110)).toMatchObject({ first: 0, count: 110 });
    expect(quietest([rests], 1)).toEqual({ first: 0, count: 1, sway: 0 });
    expect(quietest([rests], 60, 60)).toMatchObject({ first: 0, count: 60 });
  });

  it('is not led astray by one marker that shakes, since the body is the middle of its markers', () => {
    const rests: Path = (frame) => [frame < 200 ? 0 : frame, 0, 0];
    const { first, count } = quietest([rests, rests, rests, (frame) => [30 * Math.sin(frame), 0, 0]], 600);
    expect(first).toBe(0);
    expect(count).toBeLessThanOrEqual(225);
  });

  it('prefers frames in which a marker is seen to quieter ones in which it is hidden', () => {
    const sways: Path = (frame) => [frame > 300 ? Math.sin(frame / 9) : 0, 0, 0];
    const { first } = quietest([sways, sways, (frame) => (frame > 300 ? [9, 9, 9] : null)], 600);
    expect(first).toBeGreaterThanOrEqual(275);
  });

  it('says how much the body sways when it never stands still', () => {
    // A sine of amplitude 40 has a standard deviation of 28.3 over whole periods; 63 frames are one.
    const { sway } = quietest([(frame) => [40 * Math.sin((2 * Math.PI * frame) / 50), 0, 0]], 600);
    expect(sway).toBeCloseTo(40 / Math.SQRT2, 0);
  });

  it('measures the same sway far from the origin of the laboratory', () => {
    const path =
      (from: number): Path =>
      (frame) => [from + Math.sin(frame / 10), 0, 0];
    expect(quietest([path(30_000)], 400).sway).toBeCloseTo(quietest([path(0)], 400).sway, 2);
  });
});

describe('a person who does not stand at once', () => {
  const adult = symmetricAdult();
  const labels = wands22.markers.map((marker) => marker.label).filter((label) => adult.has(label));

  it('is judged where the stepping in is over', () => {
    for (const seed of [3, 4, 5]) {
      const body = { ankleForwardMm: adult.get('R_LM')![0], ankleHeightMm: 90, massCentreHeightMm: 935 };
      const recording = {
        rateHz: 100,
        seconds: 6,
        vertical: '+Z',
        units: 'mm',
        headingDeg: 70,
        standsAtMm: [10, 20],
        motion: 'step-in',
        hidden: [],
      } as const;
      const report = checkBytes(writeC3d(recordTrial(adult, labels, body, recording, seededRandom(seed)).contents));
      // The last foot is down after 1.2 s; what sways after that dies down and is hardly more than standing.
      expect(report.trial.window!.firstFrame).toBeGreaterThan(120);
      expect(report.trial.window!.swayMm).toBeLessThan(4);
      const truth = checkPositions(adult);
      for (const { id, value, unit } of report.rules) {
        if (unit === 'mm' && value !== null) expect(Math.abs(value - ruleValue(truth, id)), id).toBeLessThan(2);
      }
    }
  });

  it('is judged where the knees are straight again', () => {
    const still = stillContents(adult, { frames: 500 });
    const values = still.values.slice();
    // For two seconds everything above the ankles sinks by up to 120 mm and comes up again.
    for (let frame = 0; frame < 200; frame += 1) {
      for (let point = 0; point < still.pointCount; point += 1) {
        const at = (frame * still.pointCount + point) * 4 + 2;
        if (values[at]! > 150) values[at]! -= 60 * (1 - Math.cos((2 * Math.PI * frame) / 200));
      }
    }
    const report = checkBytes(writeC3d({ ...still, values }));
    expect(report.trial.window!.firstFrame).toBeGreaterThan(200);
    expect(report.rules.map(({ value }) => value)).toEqual(checkBytes(writeC3d(still)).rules.map(({ value }) => value));
  });

  it('who never stands still is told so, and only what holds within a segment is judged', () => {
    const still = stillContents(adult, { frames: 400 });
    const values = still.values.slice();
    for (let index = 0; index < values.length; index += 4) {
      values[index]! += 25 * Math.sin(Math.floor(index / 4 / still.pointCount) / 6);
    }
    const report = checkBytes(writeC3d({ ...still, values }));
    expect(report.problems.map(({ code }) => code)).toEqual(['not-still']);
    const unjudged = report.rules.filter(({ reason }) => reason === 'the patient did not stand still');
    expect(unjudged.map(({ id }) => id).sort()).toEqual(
      wands22.rules
        .filter(({ spans }) => spans === 'body')
        .map(({ id }) => id)
        .sort(),
    );
  });

  it('is judged on one frame, and at a rate that the file does not state', () => {
    const still = stillContents(adult, { frames: 300 });
    const one = stillContents(adult, { frames: 1 });
    const statuses = (bytes: Uint8Array) => checkBytes(bytes).rules.map(({ status }) => status);
    expect(statuses(writeC3d(one))).toEqual(statuses(writeC3d(still)));
    expect(readC3d(writeC3d({ ...still, rateHz: null })).rateHz).toBeNull();
    expect(statuses(writeC3d({ ...still, rateHz: null }))).toEqual(statuses(writeC3d(still)));
  });
});
