import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import type { Frame } from '../../../src/core/gait-model/frame.ts';
import { calibrateLowerBody, legAngles, readLeg } from '../../../src/core/gait-model/lower-body-model.ts';
import type { MarkerSet } from '../../../src/core/marker-set/marker-set.ts';
import type { Side } from '../../../src/core/rule-kinds/rule-kind.ts';
import { emptySession, type Session } from '../../../src/core/session/session.ts';
import { inOrder } from '../../support/ordinary-people.ts';
import type { AngleName } from './independent-model.ts';

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
