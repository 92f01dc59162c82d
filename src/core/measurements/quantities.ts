import type { Measure, MeasureUnit } from '../marker-set/measure.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import { kilogramsPer, millimetresPer } from '../session/measured.ts';
import type { Measurement, Session } from '../session/session.ts';
import type { ReadingName } from './sheet-finding.ts';

/** One measurement with all its readings, in mm (kg for the mass). */
export interface Quantity extends ReadingName {
  readonly readings: readonly number[];
  readonly mean: number;
  readonly written: readonly Measurement[];
}

/** Everything on the sheet, in the order in which it was first written. */
export function quantitiesOf(session: Session): Quantity[] {
  const written = new Map<string, Measurement[]>();
  for (const reading of session.measurements) {
    const key = keyOf(reading);
    written.set(key, [...(written.get(key) ?? []), reading]);
  }
  return [...written.values()].map((entries) => {
    const { measure, side } = entries[0]!;
    const readings = entries.map(({ value, unit }) => value * perUnit(unit));
    return {
      measure,
      side,
      readings,
      mean: readings.reduce((sum, one) => sum + one, 0) / readings.length,
      written: entries,
    };
  });
}

export function findQuantity(quantities: readonly Quantity[], measure: Measure, side: Side | null): Quantity | null {
  return quantities.find((one) => one.measure === measure && one.side === side) ?? null;
}

export function keyOf({ measure, side }: ReadingName): string {
  return `${side ?? ''} ${measure}`;
}

/** Millimetres, or kilograms, in a unit. */
export function perUnit(unit: MeasureUnit): number {
  return millimetresPer[unit] ?? kilogramsPer[unit]!;
}
