import type { Problem } from '../problems/problem.ts';
import type { StandingPerson, StandingPlate } from './standing-person.ts';

/** Plates and scales are each good to about 1 %, clothes and shoes weigh a kilogram (common practice). */
const massLimit = { share: 0.03, kg: 1.5 } as const;
/** Corners are surveyed and feet outlined to about a centimetre (common practice). */
const outsideLimitMm = 10;

const shownPlates = 4;

/** The markers are checked whatever the plates say, so that nothing here is more than a warning. */
const warning = { severity: 'warning', markers: [] } as const;

/** One problem for all plates that cannot be used. */
export function plateUnusable(standing: readonly StandingPlate[]): Problem[] {
  const unusable = standing.filter(({ load }) => load === null);
  if (unusable.length === 0) return [];
  const reasons = unusable.slice(0, shownPlates).map(({ number, reason }) => `plate ${number} because ${reason}`);
  const more = unusable.length > shownPlates ? `, and ${unusable.length - shownPlates} more` : '';
  return [
    {
      ...warning,
      code: 'plate-unusable',
      message: `Force plates that the file names could not be used: ${reasons.join('; ')}${more}.`,
      remedy: 'Check how the capture software describes the plates; the markers were checked without them.',
    },
  ];
}

/** What the plates carry against the scales. Somebody who holds on presses less on them, and that is no fault. */
export function massDisagrees(carriedKg: number | null, { massKg, supported }: StandingPerson): Problem[] {
  if (carriedKg === null || massKg === null || supported) return [];
  const limitKg = Math.max(massLimit.kg, massLimit.share * massKg);
  if (Math.abs(carriedKg - massKg) <= limitKg) return [];
  return [
    {
      ...warning,
      code: 'plates-against-mass',
      message: `The plates carry ${carriedKg.toFixed(1)} kg and the recorded mass is ${massKg.toFixed(1)} kg, further apart than ${limitKg.toFixed(1)} kg.`,
      remedy:
        'Check that nobody and nothing else touched the plates, that they were zeroed empty, and the recorded mass; until then trust no force of this session.',
    },
  ];
}

/** Somebody stands where no foot is: the markers of the feet say so, and the plate's place is doubted before them. */
export function loadWithoutFoot(plates: readonly StandingPlate[]): Problem[] {
  return plates.map(({ number, load }) => ({
    ...warning,
    code: 'plate-position-doubtful',
    message: `Plate ${number} carries ${Math.round(load!.upwardN)} N and no foot is over it.`,
    remedy: `First doubt where plate ${number} lies in the laboratory (its corners in the file, the calibration of the cameras), then whether something else lay on it, then the foot markers.`,
  }));
}

/** The place of a force under one foot alone is inside that foot. */
export function centreOutside(standing: readonly StandingPlate[]): Problem[] {
  return standing
    .filter(({ outsideFootMm }) => outsideFootMm !== null && outsideFootMm > outsideLimitMm)
    .map(({ number, feet, outsideFootMm }) => ({
      ...warning,
      code: 'plate-position-doubtful',
      message: `On plate ${number} the ${feet[0]} foot presses ${Math.round(outsideFootMm!)} mm outside where its markers say it stands.`,
      remedy: `First doubt where plate ${number} lies in the laboratory (its corners in the file, the calibration of the cameras), then the foot markers.`,
    }));
}
