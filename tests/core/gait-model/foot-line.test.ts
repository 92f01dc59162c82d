import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { calibrateLowerBody, legAngles, readLeg } from '../../../src/core/gait-model/lower-body-model.ts';
import { dot, type Vec3 } from '../../../src/core/geometry/vector.ts';
import type { MarkerSet } from '../../../src/core/marker-set/marker-set.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';
import { markersOf, moved, room } from './stand-model.ts';

const { right, left, posture } = wands22.model!;
const flat: MarkerSet = {
  ...wands22,
  model: {
    right: { ...right, foot: { ...right.foot, flat: true } },
    left: { ...left, foot: { ...left.foot, flat: true } },
    posture,
  },
};

const adult = symmetricAdult();
const heelLow = moved(adult, 'R_HEEL', [0, 0, -15]);

function ankle(positions: MarkerPositions, set: MarkerSet): { dorsiflexion: number; foot: Vec3 } {
  const markers = markersOf(positions, set);
  const leg = readLeg(calibrateLowerBody(set, emptySession, markers, room.up), 'right', markers)!;
  return { dorsiflexion: legAngles(leg, room, 'right').ankle.dorsiflexion, foot: leg.foot };
}

describe('the line of a foot', () => {
  it('is that of its markers where nothing else is said: a heel 15 mm low is dorsiflexion', () => {
    const [was, is] = [ankle(adult, wands22), ankle(heelLow, wands22)];
    // Seen from the side along the ankle's axis, the markers stand nearer together than their distance.
    expect(is.dorsiflexion - was.dorsiflexion).toBeGreaterThan(4);
    expect(is.dorsiflexion - was.dorsiflexion).toBeLessThan(7);
  });

  it('is level in the static trial where the foot is taken as flat, whatever the heel marker does', () => {
    const [was, is] = [ankle(adult, flat), ankle(heelLow, flat)];
    expect(is.foot[2]).toBeCloseTo(0, 12);
    expect(is.dorsiflexion).toBeCloseTo(was.dorsiflexion, 9);
  });

  it('then turns with the foot: bent by 20 degrees at the ankle, it reads 20 degrees more', () => {
    const standing = markersOf(heelLow, flat);
    const model = calibrateLowerBody(flat, emptySession, standing, room.up);
    const before = readLeg(model, 'right', standing)!;
    const turn = (-20 * Math.PI) / 180;
    const axis = before.shank.left;
    // Heel and forefoot turned about the ankle's axis, toes up (right-handed about left is toes down).
    const bent = standing.slice();
    for (const label of ['R_HEEL', 'R_MET5']) {
      const slot = flat.markers.findIndex((marker) => marker.label === label) * 3;
      const v = [0, 1, 2].map((i) => standing[slot + i]! - before.ankle[i]!) as Vec3;
      const along = dot(v, axis);
      const square = v.map((value, i) => value - along * axis[i]!) as Vec3;
      const across: Vec3 = [
        axis[1] * square[2] - axis[2] * square[1],
        axis[2] * square[0] - axis[0] * square[2],
        axis[0] * square[1] - axis[1] * square[0],
      ];
      for (const i of [0, 1, 2]) {
        bent[slot + i] =
          before.ankle[i]! + along * axis[i]! + square[i]! * Math.cos(turn) + across[i]! * Math.sin(turn);
      }
    }
    const after = readLeg(model, 'right', bent)!;
    const read = (leg: typeof before) => legAngles(leg, room, 'right').ankle.dorsiflexion;
    expect(read(after) - read(before)).toBeCloseTo(20, 6);
  });
});
