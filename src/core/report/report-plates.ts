import type { StandingLoad } from '../force-plates/standing-load.ts';
import { dot, subtract, type Vec3 } from '../geometry/vector.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import type { ReportedPlates } from './report.ts';

/** What the plates say, in the patient's own axes. */
export function reportPlates(load: StandingLoad, body: StandingBody, recordedKg: number | null): ReportedPlates {
  const { forward, left, up, origin } = body.geometry.axes(body.lab);
  const inBody = (place: Vec3): Vec3 => {
    const from = subtract(place, origin);
    return [dot(from, forward), dot(from, left), dot(from, up)];
  };
  return {
    massKg: load.massKg,
    recordedMassKg: recordedKg,
    loadShareReason: load.loadShareReason,
    each: load.plates.map(({ number, type, load: own, reason, feet, outsideFootMm }) => ({
      number,
      type,
      reason,
      feet,
      upwardN: own === null ? null : own.upwardN,
      centreMm: own?.centreMm ? inBody(own.centreMm) : null,
      outsideFootMm,
      zeroed: own?.zeroed ?? false,
    })),
  };
}
