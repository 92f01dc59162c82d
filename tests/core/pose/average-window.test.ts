import { describe, expect, it } from 'vitest';
import { averageWindow, exchangeMarkers } from '../../../src/core/pose/average-window.ts';
import { movingTrial, type Path } from '../../support/moving-points.ts';

const average = (paths: readonly Path[], frames: number, first = 0, count = frames, millimetres = 1, rateHz = 100) =>
  averageWindow(
    movingTrial(paths, frames),
    paths.map((_, index) => index),
    first,
    count,
    millimetres,
    rateHz,
  );

describe('averageWindow', () => {
  const sways: Path = (frame) => [100 + Math.sin(frame / 20), 200 + Math.cos(frame / 15), 300];

  it('is the plain mean, with the standard deviation in three dimensions, on quiet data', () => {
    const { means, sdMm, visible, jumps } = average([sways], 400, 50, 300);
    const frames = Array.from({ length: 300 }, (_, index) => sways(50 + index)!);
    const plain = [0, 1, 2].map((axis) => frames.reduce((sum, at) => sum + at[axis]!, 0) / 300);
    plain.forEach((value, axis) => {
      expect(means[axis]).toBeCloseTo(value, 4);
    });
    const variance = [0, 1, 2].reduce(
      (sum, axis) => sum + frames.reduce((total, at) => total + (at[axis]! - plain[axis]!) ** 2, 0) / 299,
      0,
    );
    expect(sdMm[0]).toBeCloseTo(Math.sqrt(variance), 4);
    expect([visible[0], jumps[0]]).toEqual([1, 0]);
  });

  it('is in millimetres, whatever the file is in', () => {
    const inMetres: Path = (frame) => sways(frame)!.map((mm) => mm / 1000) as [number, number, number];
    const [mm, m] = [average([sways], 200), average([inMetres], 200, 0, 200, 1000)];
    expect(m.means[1]).toBeCloseTo(mm.means[1]!, 3);
    expect(m.sdMm[0]).toBeCloseTo(mm.sdMm[0]!, 3);
  });

  it('looks at no frame outside the window', () => {
    const wild: Path = (frame) => (frame < 100 || frame >= 200 ? [9999, 9999, 9999] : [1, 2, 3]);
    const { means, sdMm, jumps } = average([wild], 300, 100, 100);
    expect([...means, sdMm[0], jumps[0]]).toEqual([1, 2, 3, 0, 0]);
  });

  it('counts leaps, there and back, and leaves the frames between them out of the mean', () => {
    const leaps: Path = (frame) => [frame >= 150 && frame < 160 ? 80 : 0, 0, 900 + 0.1 * Math.sin(frame)];
    const { means, jumps } = average([leaps], 300);
    expect(jumps[0]).toBe(2);
    expect(means[0]).toBeCloseTo(0, 9);
  });

  it('does not call a gap a leap, nor sway', () => {
    const gap: Path = (frame) => (frame >= 100 && frame < 150 ? null : [frame < 100 ? 0 : 40, 0, 0]);
    const quick: Path = (frame) => [10 * Math.sin(frame / 8), 0, 0];
    const { jumps, visible } = average([gap, quick], 300);
    expect([...jumps]).toEqual([0, 0]);
    expect(visible[0]).toBeCloseTo(250 / 300, 12);
  });

  it('is not there for a marker without a point, or one that is never seen', () => {
    const file = movingTrial([() => null, () => [1, 1, 1]], 50);
    const { means, visible } = averageWindow(file, [0, -1, 1], 0, 50, 1, 100);
    expect([...means.subarray(0, 6)].every(Number.isNaN)).toBe(true);
    expect([...visible]).toEqual([0, 0, 1]);
  });

  it('gives means over equal parts, whose mean is the whole', () => {
    const { parts, means } = average([(frame) => [frame / 100, 0, 0]], 400);
    expect(parts).toHaveLength(8);
    parts.forEach((part, index) => {
      expect(part[0]).toBeCloseTo((index * 50 + 24.5) / 100, 4);
    });
    expect(parts.reduce((sum, part) => sum + part[0]!, 0) / 8).toBeCloseTo(means[0]!, 6);
  });

  it('keeps the mean over the window in a part in which a marker is hidden', () => {
    const { parts, means } = average([(frame) => (frame < 120 ? null : [frame, 0, 0])], 400);
    expect(parts[0]![0]).toBe(means[0]);
    expect(parts[7]![0]).toBeCloseTo(374.5, 4);
  });

  it('has one part for one frame', () => {
    expect(average([() => [1, 2, 3]], 1).parts.map((part) => [...part])).toEqual([[1, 2, 3]]);
  });
});

describe('exchangeMarkers', () => {
  it('exchanges everything that is known of two markers, and only of them', () => {
    const at =
      (x: number): Path =>
      (frame) =>
        frame < x ? null : [x + (frame % 2) * x, 0, 0];
    const before = average([at(1), at(2), at(30)], 40);
    const after = exchangeMarkers(before, 0, 2);
    expect(after.means[0]).toBe(before.means[6]);
    expect(after.means[6]).toBe(before.means[0]);
    expect([...after.visible]).toEqual([before.visible[2], before.visible[1], before.visible[0]]);
    expect([...after.sdMm]).toEqual([before.sdMm[2], before.sdMm[1], before.sdMm[0]]);
    expect([...after.jumps]).toEqual([before.jumps[2], before.jumps[1], before.jumps[0]]);
    after.parts.forEach((part, index) => {
      expect(part[0]).toBe(before.parts[index]![6]);
    });
    expect(exchangeMarkers(after, 2, 0)).toEqual(before);
  });
});
