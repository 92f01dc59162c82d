import type { Session } from '../session/session.ts';
import { expectedSize, legPerStature, type Person } from './expected-size.ts';
import { findQuantity, type Quantity, quantitiesOf } from './quantities.ts';
import { medianStatureMm } from './stature-by-age.ts';

/** The sheet as its checks see it. */
export interface Sheet {
  readonly session: Session;
  readonly quantities: readonly Quantity[];
  readonly person: Person;
  /** What the measured stature is against the other measurements; null where they do not speak against it. */
  readonly statureDoubt: StatureDoubt | null;
}

export interface StatureDoubt {
  /** How many times larger the other measurements are than this stature lets expect; the middle one. */
  readonly ratio: number;
  readonly measures: number;
}

/** Grown people, for all that is told of adults here. */
const adultYears = 18;
/** Measurements that grow with stature; one alone says nothing about it. */
const growing = ['legLength', 'kneeDiameter', 'ankleDiameter', 'pelvisWidth'] as const;
const fewestGrowing = 3;
/** No body is built so far off throughout; common practice. */
const usualRatio = { low: 0.82, high: 1.22 } as const;

/** Lays out a session's hand measurements, with the stature that the others are to be judged by. */
export function laySheet(session: Session): Sheet {
  const quantities = quantitiesOf(session);
  const { ageYears, sex } = session.subject;
  const isAdult = ageYears === null ? null : ageYears >= adultYears;
  const unmeasured: Person = { ageYears, sex, isAdult, legMm: null, statureMm: null };
  const measured = findQuantity(quantities, 'stature', null)?.mean ?? null;
  const band = expectedSize('stature', unmeasured);
  const isPlausible = measured !== null && measured >= band.low && measured <= band.high;
  const legsAtAll = { ...unmeasured, legMm: meanLeg(quantities, unmeasured) };
  const estimated = { ...legsAtAll, statureMm: estimatedStature(legsAtAll) };
  if (!isPlausible) return { session, quantities, person: estimated, statureDoubt: null };
  const asMeasured = { ...unmeasured, statureMm: measured };
  const statureDoubt = doubtStature(quantities, asMeasured);
  const person = statureDoubt === null ? { ...asMeasured, legMm: meanLeg(quantities, asMeasured) } : estimated;
  return { session, quantities, person, statureDoubt };
}

/** Mean of the legs that are of a length some body like this has; null where there is none. */
function meanLeg(quantities: readonly Quantity[], person: Person): number | null {
  const { low, high } = expectedSize('legLength', person);
  const legs = quantities.filter(({ measure, mean }) => measure === 'legLength' && mean >= low && mean <= high);
  return legs.length === 0 ? null : legs.reduce((sum, { mean }) => sum + mean, 0) / legs.length;
}

/** From the legs, else from age. */
function estimatedStature({ legMm, isAdult, ageYears, sex }: Person): number | null {
  if (legMm === null) return medianStatureMm({ ageYears, sex });
  return legMm / legPerStature[isAdult === false ? 'child' : 'adult'];
}

/** Where every length speaks against the stature the same way, it is the stature that was misread. */
function doubtStature(quantities: readonly Quantity[], person: Person): StatureDoubt | null {
  const ratios = growing.flatMap((measure) => {
    const own = quantities.filter((one) => one.measure === measure);
    const { expected } = expectedSize(measure, person);
    if (own.length === 0 || expected === null) return [];
    return [own.reduce((sum, { mean }) => sum + mean, 0) / own.length / expected];
  });
  if (ratios.length < fewestGrowing) return null;
  const sorted = ratios.toSorted((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const ratio = sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
  return ratio < usualRatio.low || ratio > usualRatio.high ? { ratio, measures: ratios.length } : null;
}
