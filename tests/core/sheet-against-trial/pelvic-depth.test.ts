import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import type { Vec3 } from '../../../src/core/geometry/vector.ts';
import type { ComparisonDefinition } from '../../../src/core/marker-set/comparison-definition.ts';
import { bodyFromPositions } from '../../../src/core/pose/body-from-positions.ts';
import { hipCentre } from '../../../src/core/pose/hip-centre.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { pelvicDepth } from '../../../src/core/sheet-against-trial/pelvic-depth.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

const comparison = wands22.comparisons.find(({ id }) => id === 'asis-trochanter-depth.right') as ComparisonDefinition;
const person = { isAdult: true, statureMm: 1700, legMm: 900, ageYears: 35, sex: null } as const;
/** Radius 7 mm and 5 mm of tissue lie between the ruler and the marker. */
const inFrontMm = 12;

function foretold(positions: MarkerPositions): number {
  const body = bodyFromPositions(wands22, emptySession, (label) => positions.get(label))!;
  const predict = pelvicDepth(comparison, body, person);
  if (typeof predict !== 'function') throw new Error(predict.reason);
  return predict(body.positions);
}

/** Markers of the pelvis and the trochanter tilted forward together, about the line between the ASIS. */
function tilted(positions: MarkerPositions, deg: number): MarkerPositions {
  const [, , height] = positions.get('R_ASIS')!;
  const front = positions.get('R_ASIS')![0];
  const angle = (deg * Math.PI) / 180;
  const turn = ([x, y, z]: Vec3): Vec3 => {
    const [ahead, above] = [x - front, z - height];
    return [
      front + ahead * Math.cos(angle) + above * Math.sin(angle),
      y,
      height - ahead * Math.sin(angle) + above * Math.cos(angle),
    ];
  };
  const carried = new Set(['R_ASIS', 'L_ASIS', 'S1', 'R_GT', 'L_GT']);
  return new Map([...positions].map(([label, at]) => [label, carried.has(label) ? turn(at as Vec3) : at]));
}

describe('ASIS-trochanter depth foretold by markers', () => {
  it('is counted along the line by which the regression of Davis et al. 1991 (equations 5 and 7) moves the hip centre', () => {
    const size = { pelvisWidthMm: 240, pelvisDepthMm: 155, legLengthMm: 900, markerRadiusMm: 7 };
    const at = (depth: number) => hipCentre('davis-1991', { ...size, asisTrochanterDepthMm: depth })!;
    const along = { forward: at(81).forward - at(80).forward, up: at(81).up - at(80).up };
    const adult = symmetricAdult();
    const before = foretold(adult);
    // The trochanter one millimetre further along that line, in a pelvis whose own axes are tilted in the laboratory.
    const [asis, sacral] = [adult.get('R_ASIS')!, adult.get('S1')!];
    const tilt = Math.atan2(sacral[2] - asis[2], asis[0] - sacral[0]);
    const [x, y, z] = adult.get('R_GT')!;
    const moved: Vec3 = [
      x + along.forward * Math.cos(tilt) + along.up * Math.sin(tilt),
      y,
      z - along.forward * Math.sin(tilt) + along.up * Math.cos(tilt),
    ];
    expect(foretold(new Map(adult).set('R_GT', moved)) - before).toBeCloseTo(1, 6);
  });

  it('does not change when the pelvis tilts as a whole, which the horizontal of the laboratory would', () => {
    const adult = symmetricAdult();
    const level = foretold(adult);
    const horizontal = (of: MarkerPositions) => of.get('R_ASIS')![0] - of.get('R_GT')![0];
    fc.assert(
      fc.property(fc.double({ min: -15, max: 15, noNaN: true }), (deg) => {
        expect(foretold(tilted(adult, deg))).toBeCloseTo(level, 6);
      }),
    );
    expect(Math.abs(horizontal(tilted(adult, 10)) - horizontal(adult))).toBeGreaterThan(10);
  });

  it('leaves out the radius of the marker and the tissue below it', () => {
    const adult = symmetricAdult();
    const [asis, sacral, trochanter] = ['R_ASIS', 'S1', 'R_GT'].map((label) => adult.get(label)!) as [Vec3, Vec3, Vec3];
    const tilt = Math.atan2(sacral[2] - asis[2], asis[0] - sacral[0]);
    const turn = (18 * Math.PI) / 180 - tilt;
    const depth = (asis[0] - trochanter[0]) * Math.cos(turn) + (asis[2] - trochanter[2]) * Math.sin(turn);
    expect(foretold(adult)).toBeCloseTo(depth - inFrontMm, 6);
  });
});
