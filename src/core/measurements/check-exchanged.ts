import { isSided, type Measure } from '../marker-set/measure.ts';
import { disagree, repeatLimit } from './check-repeats.ts';
import { nameMeasure, sayValue } from './measure-words.ts';
import { findQuantity, type Quantity } from './quantities.ts';
import type { Sheet } from './sheet.ts';
import { repeatOf, type SheetFinding } from './sheet-finding.ts';

const sides = ['right', 'left'] as const;

/** Readings that stand in each other's place: right and left, or knee and ankle. */
export function checkExchanged(sheet: Sheet): SheetFinding[] {
  return [...legsAgainstDifference(sheet), ...crossedRepeats(sheet), ...kneeWithAnkle(sheet)];
}

/** Smallest recorded difference that shows which leg is which; legs differ by 5 mm in most people (Knutson 2005). */
const tellingDifferenceMm = 10;

function legsAgainstDifference({ quantities, session }: Sheet): SheetFinding[] {
  const recorded = session.facts.legLengthDifferenceMm;
  const [right, left] = sides.map((side) => findQuantity(quantities, 'legLength', side));
  if (!right || !left || recorded === null || Math.abs(recorded) < tellingDifferenceMm) return [];
  const measured = right.mean - left.mean;
  const limit = repeatLimit('legLength');
  if (Math.abs(measured + recorded) > limit || Math.abs(measured - recorded) <= limit) return [];
  const longer = recorded > 0 ? 'right' : 'left';
  const other = recorded > 0 ? 'left' : 'right';
  return [
    repeatOf(
      'exchanged',
      [right, left],
      `Right and left leg length are exchanged, or the recorded difference is: the ${longer} leg is recorded as ${Math.abs(Math.round(recorded))} mm longer, and on the sheet the ${other} one is ${Math.round(Math.abs(measured))} mm longer.`,
      'the recorded leg-length difference of this patient',
    ),
  ];
}

/** Repeats that disagree on both sides, and agree once one side's second reading counts for the other. */
function crossedRepeats({ quantities }: Sheet): SheetFinding[] {
  return quantities.flatMap((right) => {
    const left = findQuantity(quantities, right.measure, 'left');
    if (right.side !== 'right' || left === null || !isSided(right.measure)) return [];
    if (right.readings.length !== 2 || left.readings.length !== 2 || !disagree(right) || !disagree(left)) return [];
    const limit = repeatLimit(right.measure);
    const [a, b] = right.readings as [number, number];
    const [c, d] = left.readings as [number, number];
    if (Math.abs(a - d) > limit || Math.abs(c - b) > limit) return [];
    return [
      repeatOf(
        'exchanged',
        [right, left],
        `Right and left ${nameMeasure(right.measure)} are exchanged in one of the two readings: ${pairInWords(right.measure, a, c)} first, then ${pairInWords(right.measure, b, d)}.`,
        'the repeated readings of this sheet',
      ),
    ];
  });
}

function pairInWords(measure: Measure, right: number, left: number): string {
  return `right ${sayValue(measure, right)} and left ${sayValue(measure, left)}`;
}

/** A knee is broader than an ankle. */
function kneeWithAnkle({ quantities }: Sheet): SheetFinding[] {
  return sides.flatMap((side) => {
    const [knee, ankle] = (['kneeDiameter', 'ankleDiameter'] as const).map((measure): Quantity | null =>
      findQuantity(quantities, measure, side),
    );
    if (!knee || !ankle || knee.mean >= ankle.mean || ankle.mean > 1.6 * knee.mean) return [];
    return [
      repeatOf(
        'exchanged',
        [knee, ankle],
        `The ${side} knee diameter of ${sayValue('kneeDiameter', knee.mean)} is less than that of the ankle, ${sayValue('ankleDiameter', ankle.mean)}: the two stand in each other's place.`,
        'a knee is broader than an ankle; ANSUR II 2012 for the ankle',
      ),
    ];
  });
}
