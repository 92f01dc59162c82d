import { anyOf, quoted } from '../schemas/show-value.ts';
import { type Draft, refuse } from './draft.ts';
import { isSided, unitsOf } from './measure.ts';

/** @throws MarkerSetError where a unit or side does not go with a measure, or two parameters hold one measurement */
export function checkMeasurements(draft: Draft): void {
  const first = new Map<string, number>();
  draft.set.measurementsIn.forEach(({ measure, side, unit }, index) => {
    const pointer = `/measurementsIn/${index}`;
    const units = unitsOf(measure);
    if (!units.includes(unit))
      refuse(
        draft,
        `${pointer}/unit`,
        `found ${quoted(unit)}, expected ${anyOf(units)}; correct the unit, or the measure`,
      );
    if (isSided(measure) !== (side !== null))
      refuse(
        draft,
        pointer,
        side === null
          ? 'found no side, expected "right" or "left" for this measure; add "side"'
          : 'found a side, but this measure has none; take "side" out',
      );
    const before = first.get(`${side} ${measure}`);
    if (before !== undefined)
      refuse(draft, pointer, `found the same measurement as in /measurementsIn/${before}; take one out`);
    first.set(`${side} ${measure}`, index);
  });
}
