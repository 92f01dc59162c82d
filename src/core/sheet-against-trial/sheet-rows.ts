import type { Measure } from '../marker-set/measure.ts';
import { expectedSize, type Person } from '../measurements/expected-size.ts';
import type { Quantity } from '../measurements/quantities.ts';
import type { Sheet } from '../measurements/sheet.ts';

/** A reading against what the rest of the sheet lets expect, mm. */
export interface SheetRow {
  readonly id: string;
  /** Rows of both sides have the same. */
  readonly stem: string;
  readonly reading: number;
  readonly residualMm: number;
  readonly slopes: Float64Array;
  readonly spreadMm: number;
  readonly alikeMm: number;
}

/** A plausible band is taken as so many standard deviations on either side. */
const bandSds = 2.5;

/** How much the two sides of a person differ, 1 SD of one side, mm: those of the sheet's limits for left against right. */
const sideSdMm: Readonly<Partial<Record<Measure, number>>> = {
  legLength: 4.7,
  asisTrochanterDepth: 4.3,
  kneeDiameter: 2.8,
  ankleDiameter: 2.3,
};
/** A limb in an orthosis or replaced by a prosthesis is not like the other. */
const unlikeFactor = 4;

/** Depth against ankle diameter in adults: common practice, within 20 mm. */
const depthAgainstAnkleSdMm = 10;
const shortestLegMm = 700;

/**
 * What the sheet by itself lets expect of each reading: its size for the person's stature, age and sex, with what both
 * sides share; and the depth against the ankle.
 * @param readings those that are weighed, in their order
 */
export function sheetRows({ session, person }: Sheet, readings: readonly Quantity[]): SheetRow[] {
  const stature = readings.findIndex(({ measure }) => measure === 'stature');
  const { facts } = session;
  const rows = readings.flatMap((quantity, reading): SheetRow[] => {
    const { measure, side, mean } = quantity;
    const { expected, low, high } = expectedSize(measure, person);
    if (expected === null) return [];
    const slopes = new Float64Array(readings.length);
    slopes[reading] = 1;
    if (stature >= 0 && measure !== 'stature') slopes[stature] = -perStature(measure, person);
    const total = (high - low) / 2 / bandSds;
    const isUnlike = facts.orthosis.length > 0 || facts.prosthesis.length > 0;
    const ownMm = Math.min(total, (sideSdMm[measure] ?? total) * (isUnlike ? unlikeFactor : 1));
    const longer = measure === 'legLength' ? (facts.legLengthDifferenceMm ?? 0) / 2 : 0;
    return [
      {
        id: `size ${side ?? ''} ${measure}`,
        stem: measure,
        reading,
        residualMm: mean - expected - (side === 'left' ? -longer : longer),
        slopes,
        spreadMm: ownMm,
        alikeMm: Math.sqrt(total ** 2 - ownMm ** 2),
      },
    ];
  });
  return [...rows, ...depthsAgainstAnkles(person, readings)];
}

function depthsAgainstAnkles({ isAdult, legMm }: Person, readings: readonly Quantity[]): SheetRow[] {
  if (isAdult !== true || (legMm !== null && legMm < shortestLegMm)) return [];
  return readings.flatMap((depth, reading): SheetRow[] => {
    if (depth.measure !== 'asisTrochanterDepth') return [];
    const ankle = readings.findIndex(({ measure, side }) => measure === 'ankleDiameter' && side === depth.side);
    if (ankle < 0) return [];
    const slopes = new Float64Array(readings.length);
    slopes[reading] = 1;
    slopes[ankle] = -1;
    const spreadMm = depthAgainstAnkleSdMm * Math.SQRT1_2;
    return [
      {
        id: `depth against ankle ${depth.side}`,
        stem: 'depth against ankle',
        reading,
        residualMm: depth.mean - readings[ankle]!.mean,
        slopes,
        spreadMm,
        alikeMm: spreadMm,
      },
    ];
  });
}

/** How the expected size grows with stature, per mm. */
function perStature(measure: Measure, person: Person): number {
  if (person.statureMm === null) return 0;
  const at = (statureMm: number): number => expectedSize(measure, { ...person, statureMm }).expected ?? 0;
  return (at(person.statureMm + 5) - at(person.statureMm - 5)) / 10;
}
