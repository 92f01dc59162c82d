import { describe, expect, it } from 'vitest';
import { remove } from '../../../sample-trials/plant-fault.ts';
import type { Vec3 } from '../../../src/core/geometry/vector.ts';
import { findVertical } from '../../../src/core/pose/vertical.ts';
import { inOrder, symmetricAdult } from '../../support/ordinary-people.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';
import { checkPositions, type Filming, toLab, type UpAxis } from '../../support/still-trial.ts';

const labels = wands22.markers.map((marker) => marker.label);
const adult = symmetricAdult();
const filmed = (how: Partial<Filming>, tip: (p: Vec3) => Vec3 = (p) => p) => {
  const filming = {
    set: wands22,
    upAxis: '+Z',
    headingDeg: 30,
    standsAtMm: [0, 0, 0],
    units: 'mm',
    frames: 1,
    contents: {},
    ...how,
  } as Filming;
  return inOrder(new Map([...adult].map(([label, at]) => [label, toLab(tip(at), filming)])), labels);
};
/** Leaned forward about the left-right axis. */
const leaning =
  (deg: number) =>
  ([x, y, z]: Vec3): Vec3 => {
    const turn = (deg * Math.PI) / 180;
    return [x * Math.cos(turn) + z * Math.sin(turn), y, z * Math.cos(turn) - x * Math.sin(turn)];
  };

const axes: UpAxis[] = ['+X', '-X', '+Y', '-Y', '+Z', '-Z'];

describe('findVertical', () => {
  it.each(axes)('finds %s up from the body alone', (upAxis) => {
    const found = findVertical(filmed({ upAxis }), wands22, null)!;
    expect(found).toMatchObject({ axis: upAxis, contradicts: null, unclear: false });
    expect(found.up['XYZ'.indexOf(upAxis[1]!)]).toBe(upAxis[0] === '+' ? 1 : -1);
    expect(found.bodyHeight).toBeGreaterThan(800);
    expect(found.bodyHeight).toBeLessThan(1000);
  });

  it.each(
    axes.flatMap((upAxis) => axes.filter((stated) => stated !== upAxis).map((stated) => [upAxis, stated] as const)),
  )('believes a body that stands along %s where the file says %s', (upAxis, stated) => {
    expect(findVertical(filmed({ upAxis }), wands22, stated)).toMatchObject({ axis: upAxis, contradicts: stated });
  });

  it.each(['Z', '+Z', ' +Z  ', 'z'])('understands "%s"', (stated) => {
    expect(findVertical(filmed({}), wands22, stated)!.contradicts).toBeNull();
  });

  it.each(['', 'up', '__proto__', '+W'])('makes nothing of "%s"', (stated) => {
    expect(findVertical(filmed({}), wands22, stated)).toMatchObject({ axis: '+Z', contradicts: null, unclear: false });
  });

  it('asks the file where the body leans too far to tell', () => {
    const bent = filmed({ headingDeg: 0 }, leaning(50));
    expect(findVertical(bent, wands22, '+Z')).toMatchObject({ axis: '+Z', unclear: true, contradicts: null });
    expect(findVertical(bent, wands22, null)).toMatchObject({ axis: '+X', unclear: true });
    expect(findVertical(filmed({ headingDeg: 0 }, leaning(20)), wands22, null)).toMatchObject({
      axis: '+Z',
      unclear: false,
    });
  });

  it('does not know where no foot or no pelvis is seen, or all lie on one spot', () => {
    const without = (...gone: string[]) => inOrder(gone.reduce(remove, adult), labels);
    expect(findVertical(without(...wands22.bodyAxes.low), wands22, '+Z')).toBeNull();
    expect(findVertical(without(...wands22.bodyAxes.high), wands22, '+Z')).toBeNull();
    expect(findVertical(new Float64Array(labels.length * 3), wands22, '+Z')).toBeNull();
    const { low, high } = wands22.bodyAxes;
    expect(findVertical(without(...low.slice(1), ...high.slice(1)), wands22, null)).toMatchObject({ axis: '+Z' });
  });
});

describe('a wrong screen parameter', () => {
  it('is told, and changes nothing else', () => {
    const wrong = checkPositions(adult, { upAxis: '+Y', contents: { screen: { x: '+X', y: '+Z' } } });
    expect(wrong.problems.map(({ code, severity }) => [code, severity])).toEqual([['vertical-unclear', 'warning']]);
    expect(wrong.problems[0]!.message).toContain('+Z');
    expect(wrong.problems[0]!.message).toContain('+Y');
    const right = checkPositions(adult, { upAxis: '+Y' });
    expect({ ...wrong, problems: [] }).toEqual({ ...right, problems: [] });
  });
});
