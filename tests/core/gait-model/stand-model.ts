import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import type { Frame } from '../../../src/core/gait-model/frame.ts';
import { calibrateLowerBody, legAngles, readLeg } from '../../../src/core/gait-model/lower-body-model.ts';
import { distance } from '../../../src/core/geometry/vector.ts';
import type { MarkerSet } from '../../../src/core/marker-set/marker-set.ts';
import type { Side } from '../../../src/core/rule-kinds/rule-kind.ts';
import { emptySession, type Session } from '../../../src/core/session/session.ts';
import { inOrder } from '../../support/ordinary-people.ts';
import type { AngleName, LegSizes, P, RightLegMarkers } from './independent-model.ts';

export const room: Frame = { forward: [1, 0, 0], left: [0, 1, 0], up: [0, 0, 1] };

/** Marker positions as the model takes them. */
export function markersOf(positions: MarkerPositions, set: MarkerSet): Float64Array {
  return inOrder(
    positions,
    set.markers.map(({ label }) => label),
  );
}

/** Angles of a leg in its own static trial, by the names that the independent model uses. */
export function anglesOf(
  positions: MarkerPositions,
  set: MarkerSet,
  side: Side = 'right',
  session: Session = emptySession,
  reference: Frame = room,
): Record<AngleName, number> {
  const markers = markersOf(positions, set);
  const leg = readLeg(calibrateLowerBody(set, session, markers, room.up), side, markers);
  if (leg === null) throw new RangeError(`The ${side} leg has no model here.`);
  const named = Object.entries(legAngles(leg, reference, side)).flatMap(([joint, motions]) =>
    Object.entries(motions).map(([motion, deg]) => [`${joint} ${motion}`, deg]),
  );
  return Object.fromEntries(named) as Record<AngleName, number>;
}

/** The right leg's markers as the independent model takes them. */
export function rightLeg(positions: MarkerPositions): RightLegMarkers {
  const at = (label: string): P => positions.get(label)!;
  return {
    rightAsis: at('R_ASIS'),
    leftAsis: at('L_ASIS'),
    back: at('S1'),
    thighWand: at('R_TW'),
    epicondyle: at('R_LE'),
    shankWand: at('R_SW'),
    malleolus: at('R_LM'),
    heel: at('R_HEEL'),
    forefoot: at('R_MET5'),
  };
}

export function moved(positions: MarkerPositions, label: string, by: P): MarkerPositions {
  const [x, y, z] = positions.get(label)!;
  return new Map(positions).set(label, [x + by[0], y + by[1], z + by[2]]);
}

/** Half widths from the two markers on either side, as the model takes them without measurements; hip as in Harrington. */
export function sizesOf(positions: MarkerPositions): LegSizes {
  const between = (a: string, b: string) => distance(positions.get(a)!, positions.get(b)!) / 2;
  return {
    halfKneeMm: between('R_LE', 'R_ME'),
    halfAnkleMm: between('R_LM', 'R_MM'),
    hipOffset: (width, depth) => ({
      forward: -0.24 * depth - 9.9,
      up: -0.3 * width - 10.9,
      outward: 0.33 * width + 7.3,
    }),
  };
}
