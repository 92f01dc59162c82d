import type { Measure } from '../marker-set/measure.ts';
import { nameReading, sayValue } from './measure-words.ts';
import type { Quantity } from './quantities.ts';
import type { Sheet } from './sheet.ts';
import { repeatOf, type SheetFinding } from './sheet-finding.ts';

/** Technical error that a practised assessor keeps, in mm (kg for the mass). Common practice; none published in our sources. */
export const usualTechnicalError: Readonly<Record<Measure, number>> = {
  mass: 0.2,
  stature: 3,
  pelvisWidth: 3,
  asisTrochanterDepth: 4,
  asisPsisDepth: 4,
  kneeDiameter: 1.5,
  ankleDiameter: 1.5,
  legLength: 4,
};

/** Two readings of one thing differ by less than this many technical errors in 95 of 100 cases: 1.96 times root 2. */
export const repeatability = 2.77;

/** Largest difference of two readings that is still ordinary. */
export function repeatLimit(measure: Measure): number {
  return repeatability * usualTechnicalError[measure];
}

/** Repeated readings that are further apart than those of a practised assessor. */
export function checkRepeats({ quantities }: Sheet): SheetFinding[] {
  return quantities.filter(disagree).map((quantity) => {
    const { measure, readings } = quantity;
    const apart = Math.max(...readings) - Math.min(...readings);
    const values = readings.map((reading) => sayValue(measure, reading)).join(' and ');
    return repeatOf(
      'repeats',
      [quantity],
      `The readings of the ${nameReading(quantity)}, ${values}, are ${sayValue(measure, apart)} apart; up to ${repeatLimit(measure).toFixed(1)} ${measure === 'mass' ? 'kg' : 'mm'} is ordinary.`,
      'repeatability of 2.77 technical errors (Bland and Altman 1986, Lancet i:307-310); size of the technical error: common practice',
    );
  });
}

export function disagree({ measure, readings }: Quantity): boolean {
  return Math.max(...readings) - Math.min(...readings) > repeatLimit(measure);
}
