import type { C3dFile } from '../c3d/read-c3d.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { ConfirmedPalpation, Measurement, Session } from './session.ts';

/**
 * The session with what the trial itself and the marker set add to it: hand measurements from the C3D parameters that the
 * set names, where the session gives none, and the markers of rules that were confirmed as a whole.
 */
export function completeSession(session: Session, file: C3dFile, set: MarkerSet): Session {
  const stored = storedMeasurements(session, file, set);
  const palpated = palpatedForRules(session, set);
  if (stored.length === 0 && palpated.length === 0) return session;
  return {
    ...session,
    measurements: [...session.measurements, ...stored],
    confirmed: [...session.confirmed, ...palpated],
  };
}

/** Capture systems write 0 where nothing was measured. */
function storedMeasurements(session: Session, { groups }: C3dFile, set: MarkerSet): Measurement[] {
  return set.measurementsIn.flatMap(({ measure, side, parameter, unit }): Measurement[] => {
    if (session.measurements.some((reading) => reading.measure === measure && reading.side === side)) return [];
    const [group, name] = parameter.toUpperCase().split(':') as [string, string];
    const value = groups.get(group)?.parameters.get(name)?.values[0];
    if (typeof value !== 'number' || !Number.isFinite(value) || value <= 0) return [];
    return [{ measure, side, value, unit, parameter }];
  });
}

function palpatedForRules(session: Session, set: MarkerSet): ConfirmedPalpation[] {
  return session.confirmedRules.flatMap(({ rule: id, ...settled }) => {
    const markers = set.rules.find((rule) => rule.id === id)?.mayMove ?? [];
    return markers
      .filter((marker) => !session.confirmed.some((one) => one.marker === marker))
      .map((marker) => ({ marker, ...settled }));
  });
}
