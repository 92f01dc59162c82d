import { isSided, type Measure, unitsOf } from '../marker-set/measure.ts';
import { faultAt } from '../schemas/fault.ts';
import { anyOf, quoted } from '../schemas/show-value.ts';
import { isDate } from './is-date.ts';
import { SessionError } from './session-error.ts';
import type { WrittenSession } from './written-session.ts';

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

  const refuseSide = (pointer: string, measure: Measure, side: string | undefined): void => {
    if (isSided(measure) && side === undefined)
      refuse(pointer, 'found no side, expected "right" or "left" for this measure; add "side"');
    if (!isSided(measure) && side !== undefined)
      refuse(`${pointer}/side`, `found ${quoted(side)}, but this measure has no side; take it out`);
  };

  (written.measurements ?? []).forEach(({ measure, side, unit, inTwoParts }, index) => {
    const pointer = `/measurements/${index}`;
    const units = unitsOf(measure);
    if (!units.includes(unit))
      refuse(`${pointer}/unit`, `found ${quoted(unit)}, expected ${anyOf(units)}; correct the unit, or the measure`);
    refuseSide(pointer, measure, side);
    if (inTwoParts !== undefined && measure !== 'legLength')
      refuse(`${pointer}/inTwoParts`, 'found it beside a measure that is no leg length; take it out');
  });

  (written.accepted ?? []).forEach(({ reason, reasonCode }, index) => {
    if (reason === undefined && reasonCode === undefined)
      refuse(`/accepted/${index}`, 'found no "reason", which is needed here; add it, or a "reasonCode"');
  });

  (written.confirmed ?? []).forEach(({ marker, rule, measure, side }, index) => {
    const pointer = `/confirmed/${index}`;
    const named = [marker, rule, measure].filter((name) => name !== undefined);
    if (named.length !== 1)
      refuse(
        pointer,
        `found ${named.length === 0 ? 'none' : 'several'} of "marker", "rule" and "measure", expected one of them; say what was confirmed`,
      );
    if (measure !== undefined) refuseSide(pointer, measure, side);
    else if (side !== undefined)
      refuse(`${pointer}/side`, `found ${quoted(side)}, which goes with a "measure" only; take it out`);
  });

  for (const list of ['accepted', 'confirmed'] as const) {
    (written[list] ?? []).forEach(({ on }, index) => {
      if (!isDate(on))
        refuse(`/${list}/${index}/on`, `found ${quoted(on)}, which is no day of the calendar; correct it`);
    });
  }

  const day = written.visit?.on ?? null;
  if (day !== null && !isDate(day))
    refuse('/visit/on', `found ${quoted(day)}, which is no day of the calendar; correct it`);

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
