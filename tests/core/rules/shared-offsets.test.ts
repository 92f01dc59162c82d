import { describe, expect, it } from 'vitest';
import { turnWand } from '../../../sample-trials/plant-fault.ts';
import { sharedOffsets } from '../../../src/core/rules/shared-offsets.ts';
import { adult, assess, placedMarkers, recording, type Standing, stand, withoutMedialMarkers } from './stand-person.ts';

const markers = placedMarkers();
const both = (right: number, left: number) => turnWand(turnWand(markers, 'right', 'TW', right), 'left', 'TW', left);
const shared = (positions: typeof markers, given: Standing = {}) =>
  sharedOffsets(stand(positions, given), [...assess(positions, given).values()]);

const thighWands = ['thigh-wand-in-line.right', 'thigh-wand-in-line.left'];

describe('sharedOffsets', () => {
  it('says nothing of wands that stand in line', () => {
    expect(shared(markers)).toEqual([]);
  });

  it('says nothing of wands that are off opposite ways, or on one side alone', () => {
    expect(shared(both(9, -9))).toEqual([]);
    expect(shared(both(9, 0))).toEqual([]);
  });

  it.each([
    [9, 'forward'],
    [-9, 'back'],
  ])('takes %i degrees on both sides for a habit of the hand where the axes are known', (turn, way) => {
    const [offset, ...others] = shared(both(turn, turn));
    expect(others).toEqual([]);
    expect(offset!.rules).toEqual(thighWands);
    expect(offset!.message).toContain(`stand too far ${way}`);
    expect(offset!.message).toContain('a shared habit of the hand is likely');
  });

  it('claims no likeness beyond the direction', () => {
    const [offset] = shared(both(5, 25));
    expect(offset!.message).toBe(
      'Both thigh wands stand too far forward: a shared habit of the hand is likely, since the directions of the joints are known.',
    );
  });

  it.each([
    [9, 'forward', 'in'],
    [-9, 'back', 'out'],
  ])('cannot tell %i degrees on both sides from turned knees where they are not', (turn, way, joints) => {
    const [offset] = shared(withoutMedialMarkers(both(turn, turn)));
    expect(offset!.rules).toEqual(thighWands);
    expect(offset!.message).toContain(`either both joints are turned ${joints} or both wands are too far ${way}`);
  });

  it('means it: knees turned in look like wands too far forward', () => {
    const turnedIn = { ...adult.right, kneeTurnDeg: -14 };
    const [offset] = shared(withoutMedialMarkers(placedMarkers({ ...adult, right: turnedIn, left: turnedIn })));
    expect(offset!.rules).toEqual(thighWands);
    expect(offset!.message).toContain('either both joints are turned in or both wands are too far forward');
  });

  it('counts a recorded direction as known', () => {
    const session = recording({ kneeTurnDeg: { right: 4, left: 4 }, tibialTorsionDeg: { right: 26, left: 26 } });
    const [offset] = shared(withoutMedialMarkers(both(9, 9)), { session });
    expect(offset!.message).toContain('a shared habit of the hand is likely');
  });
});
