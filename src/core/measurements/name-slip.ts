import { type MeasureUnit, unitsOf } from '../marker-set/measure.ts';
import type { Measurement } from '../session/session.ts';
import { perUnit } from './quantities.ts';

/** A reading as it may have been meant: the value in mm (kg), and what happened. */
export interface Slip {
  readonly value: number;
  readonly says: string;
}

const unitWords: Readonly<Record<MeasureUnit, string>> = {
  mm: 'millimetres',
  cm: 'centimetres',
  m: 'metres',
  in: 'inches',
  kg: 'kilograms',
  lb: 'pounds',
};

/**
 * The slip that would make a reading plausible: another unit than the one written down, or a decimal point in the wrong
 * place. The one that comes nearest to what is usual, in proportion; null where none does.
 */
export function nameSlip(
  { measure, value, unit }: Measurement,
  { low, high, expected }: { readonly low: number; readonly high: number; readonly expected: number | null },
): Slip | null {
  const usual = expected ?? Math.sqrt(low * high);
  const slips: Slip[] = [
    ...unitsOf(measure)
      .filter((meant) => meant !== unit)
      .map((meant) => ({ value: value * perUnit(meant), says: unitSlip(value, unit, meant) })),
    ...[10, 0.1, 100, 0.01].map((factor) => ({
      value: value * factor * perUnit(unit),
      says: `the decimal point of ${value} ${unit} is in the wrong place`,
    })),
  ];
  let best: Slip | null = null;
  for (const slip of slips) {
    if (slip.value < low || slip.value > high) continue;
    // A unit comes before a decimal point that would say the same.
    if (best === null || distance(slip.value, usual) < distance(best.value, usual) - 1e-9) best = slip;
  }
  return best;
}

function distance(a: number, b: number): number {
  return Math.abs(Math.log(a / b));
}

function unitSlip(value: number, unit: MeasureUnit, meant: MeasureUnit): string {
  if (meant === 'in') return `the inch scale was read and ${value} written down as ${unitWords[unit]}`;
  return `${value} was read in ${unitWords[meant]} and written down as ${unitWords[unit]}`;
}
