import type { Measure, MeasureUnit } from '../marker-set/measure.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import type { Session } from './session.ts';

/** An inch is 25.4 mm, a pound 0.45359237 kg, both by international agreement of 1959. */
export const millimetresPer: Readonly<Partial<Record<MeasureUnit, number>>> = { mm: 1, cm: 10, m: 1000, in: 25.4 };

export const kilogramsPer: Readonly<Partial<Record<MeasureUnit, number>>> = { kg: 1, lb: 0.45359237 };

/** Mean of the recorded readings of one length in mm, null where it was not measured. */
export function measuredMm(session: Session, measure: Measure, side: Side | null): number | null {
  return meanOf(session, measure, side, millimetresPer);
}

/** Mean of the recorded readings of the mass in kg, null where it was not measured. */
export function measuredKg(session: Session): number | null {
  return meanOf(session, 'mass', null, kilogramsPer);
}

function meanOf(
  session: Session,
  measure: Measure,
  side: Side | null,
  perUnit: Readonly<Partial<Record<MeasureUnit, number>>>,
): number | null {
  let sum = 0;
  let count = 0;
  for (const reading of session.measurements) {
    const factor = perUnit[reading.unit];
    if (reading.measure !== measure || reading.side !== side || factor === undefined) continue;
    sum += reading.value * factor;
    count += 1;
  }
  return count === 0 ? null : sum / count;
}
