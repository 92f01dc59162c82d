import { faultAt } from '../schemas/fault.ts';
import { anyOf, quoted } from '../schemas/show-value.ts';
import { isDate } from './is-date.ts';
import { SessionError } from './session-error.ts';
import type { WrittenSession } from './written-session.ts';

const lengthUnits = ['mm', 'cm', 'm', 'in'];
const massUnits = ['kg', 'lb'];
/** Measures of one side; the others are of the whole person. */
const sidedMeasures = ['asisTrochanterDepth', 'kneeDiameter', 'ankleDiameter', 'legLength'];

/**
 * What a schema cannot see: units and sides that do not go with the measure, days that no calendar has, two answers
 * to one question.
 * @throws SessionError at the first fault
 */
export function checkSession(written: WrittenSession): void {
  const refuse = (pointer: string, trouble: string): never => {
    const fault = faultAt('session', written, pointer, trouble);
    throw new SessionError(fault.pointer, fault.message);
  };

  (written.measurements ?? []).forEach(({ measure, side, unit }, index) => {
    const pointer = `/measurements/${index}`;
    const units = measure === 'mass' ? massUnits : lengthUnits;
    if (!units.includes(unit))
      refuse(`${pointer}/unit`, `found ${quoted(unit)}, expected ${anyOf(units)}; correct the unit, or the measure`);
    if (sidedMeasures.includes(measure) && side === undefined)
      refuse(pointer, 'found no side, expected "right" or "left" for this measure; add "side"');
    if (!sidedMeasures.includes(measure) && side !== undefined)
      refuse(`${pointer}/side`, `found ${quoted(side)}, but this measure has no side; take it out`);
  });

  for (const list of ['accepted', 'confirmed'] as const) {
    (written[list] ?? []).forEach(({ on }, index) => {
      if (!isDate(on))
        refuse(`/${list}/${index}/on`, `found ${quoted(on)}, which is no day of the calendar; correct it`);
    });
  }

  // Where two entries answer one question, only one of them would be heard.
  refuseTwice('/accepted', written.accepted, ({ rule }) => rule, 'the same rule');
  refuseTwice(
    '/facts/variants',
    written.facts?.variants,
    ({ id, side }) => `${side ?? ''} ${id}`,
    'the same variant and side',
  );
  refuseTwice(
    '/facts/contractures',
    written.facts?.contractures,
    ({ joint, side }) => `${side} ${joint}`,
    'the same joint and side',
  );

  function refuseTwice<Entry>(
    list: string,
    entries: readonly Entry[] | undefined,
    key: (entry: Entry) => string,
    what: string,
  ): void {
    const first = new Map<string, number>();
    (entries ?? []).forEach((entry, index) => {
      const before = first.get(key(entry));
      if (before !== undefined)
        refuse(
          `${list}/${index}`,
          `found ${what} as in ${list}/${before}, of which only one would count; take one out`,
        );
      first.set(key(entry), index);
    });
  }
}
