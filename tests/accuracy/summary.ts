import { type Direction, sizesMm } from './faults.ts';
import { hands } from './hands.ts';
import type { Outcome, PartOutcome } from './measure-part.ts';
import { median, percent, type Share, shareOf } from './shares.ts';

/** Flagged and named, by the tool and by the oracle on the same people. */
export interface Compared {
  readonly flagged: Share;
  readonly first: Share;
  readonly oracleFlagged: Share;
  readonly oracleFirst: Share;
}

export interface Row extends Compared {
  readonly hand: number;
  readonly sizeMm: number;
  readonly falseAlarms: Share;
  readonly two: { readonly flagged: Share; readonly first: Share };
  readonly exchanged: { readonly flagged: Share; readonly first: Share };
}

export interface KindRow {
  readonly hand: number;
  readonly how: NonNullable<Outcome['how']>;
  readonly sizeMm: number;
  readonly flagged: Share;
  readonly first: Share;
  readonly rightWay: Share;
  readonly medianErrorMm: number | null;
}

export interface DirectionCell extends Compared {
  readonly direction: number;
  readonly sizeMm: number;
  /** The oracle flags 95 % of them. */
  readonly visible: boolean;
  /** The oracle flags and names first 90 % of them. */
  readonly nameable: boolean;
}

export interface Bin {
  readonly from: number;
  readonly meanSaid: number;
  readonly right: Share;
}

export interface PatientRow {
  readonly kind: number;
  readonly recorded: boolean;
  readonly flagged: Share;
  readonly marker: Share;
  readonly one: { readonly flagged: Share; readonly first: Share };
}

export interface Summary {
  readonly rows: readonly Row[];
  readonly falseAlarms: readonly Share[];
  /** What fails on well-marked people, by hand: rules without their side, most frequent first. */
  readonly failing: readonly (readonly { readonly rule: string; readonly share: Share }[])[];
  readonly kinds: readonly KindRow[];
  /** Every direction and size, for the first hand. */
  readonly cells: readonly DirectionCell[];
  /** Of the first hand, from 20 mm on, in directions that are visible and nameable. */
  readonly sure: {
    readonly flagged: Share;
    readonly first: Share;
    readonly rightWay: Share;
    readonly errorMm: number | null;
  };
  readonly bins: readonly Bin[];
  readonly patients: readonly PatientRow[];
}

const visibleFrom = 95;
const nameableFrom = 90;
/** Sizes at which the aim for the first hand holds. */
const sureFromMm = 20;
const leastInBin = 200;

export function summarise(parts: readonly PartOutcome[], directions: readonly Direction[]): Summary {
  const byHand = hands.map((_, hand) => parts.filter(({ part }) => part.hand === hand));
  const mixedOf = byHand.map((own) => own.flatMap(({ mixed }) => mixed));
  const wellOf = mixedOf.map((mixed) => mixed.filter(({ planted }) => planted === 'well-marked'));
  const falseAlarms = wellOf.map((well) => shareOf(well, ({ flagged }) => flagged));
  const compared = hands.map((_, hand) => comparer(wellOf[hand]!, falseAlarms[hand]!));
  const directionsOfHand = byHand.map((own) => own.flatMap((part) => part.directions));

  const cells = directions.flatMap((_, direction) =>
    sizesMm.map((sizeMm): DirectionCell => {
      const outcomes = directionsOfHand[0]!
        .filter((one) => one.direction === direction && one.outcome.sizeMm === sizeMm)
        .map(({ outcome }) => outcome);
      const cell = compared[0]!(outcomes);
      const visible = percent(cell.oracleFlagged) >= visibleFrom;
      return { ...cell, direction, sizeMm, visible, nameable: percent(cell.oracleFirst) >= nameableFrom };
    }),
  );
  const sure = directionsOfHand[0]!
    .filter(({ direction, outcome: { sizeMm } }) =>
      cells.some(
        (c) => c.direction === direction && c.sizeMm === sizeMm && sizeMm >= sureFromMm && c.visible && c.nameable,
      ),
    )
    .map(({ outcome }) => outcome);

  return {
    rows: hands.flatMap((_, hand) => sizesMm.map((sizeMm) => rowOf(hand, sizeMm, mixedOf[hand]!, compared[hand]!))),
    falseAlarms,
    failing: wellOf.map(failingRules),
    kinds: hands.flatMap((_, hand) =>
      (['by-eye', 'alone', 'followed'] as const).flatMap((how) =>
        sizesMm.map((sizeMm): KindRow => {
          const outcomes = directionsOfHand[hand]!.map(({ outcome }) => outcome).filter(
            (one) => one.how === how && one.sizeMm === sizeMm,
          );
          return { hand, how, sizeMm, ...namedWell(outcomes) };
        }),
      ),
    ),
    cells,
    sure: sureOf(sure),
    bins: binsOf(mixedOf.flat()),
    patients: patientRows(parts),
  };
}

/** The oracle flags as many of the well-marked people as the tool does. */
function comparer(well: readonly Outcome[], { k }: Share): (outcomes: readonly Outcome[]) => Compared {
  const odds = well.map(({ oracle }) => oracle!.logOdds).sort((a, b) => b - a);
  const threshold = odds[Math.min(k, odds.length - 1)]!;
  return (outcomes) => ({
    flagged: shareOf(outcomes, ({ flagged }) => flagged),
    first: shareOf(outcomes, ({ flagged, first }) => flagged && first),
    oracleFlagged: shareOf(outcomes, ({ oracle }) => oracle!.logOdds > threshold),
    oracleFirst: shareOf(outcomes, ({ oracle }) => oracle!.logOdds > threshold && oracle!.first),
  });
}

function rowOf(
  hand: number,
  sizeMm: number,
  mixed: readonly Outcome[],
  compare: (outcomes: readonly Outcome[]) => Compared,
): Row {
  const own = (planted: Outcome['planted']) => mixed.filter((one) => one.planted === planted && one.sizeMm === sizeMm);
  const found = (outcomes: readonly Outcome[]) => ({
    flagged: shareOf(outcomes, ({ flagged }) => flagged),
    first: shareOf(outcomes, ({ first }) => first),
  });
  return {
    hand,
    sizeMm,
    ...compare(own('one')),
    falseAlarms: shareOf(own('well-marked'), ({ flagged }) => flagged),
    two: found(own('two')),
    exchanged: found(own('exchanged')),
  };
}

function namedWell(outcomes: readonly Outcome[]): Omit<KindRow, 'hand' | 'how' | 'sizeMm'> {
  const first = outcomes.filter((one) => one.first);
  return {
    flagged: shareOf(outcomes, ({ flagged }) => flagged),
    first: shareOf(outcomes, (one) => one.first),
    rightWay: shareOf(first, ({ rightWay }) => rightWay === true),
    medianErrorMm: median(first.flatMap(({ errorMm }) => (errorMm === null ? [] : [errorMm]))),
  };
}

function sureOf(outcomes: readonly Outcome[]): Summary['sure'] {
  const { flagged, first, rightWay, medianErrorMm } = namedWell(outcomes);
  return { flagged, first, rightWay, errorMm: medianErrorMm };
}

function failingRules(well: readonly Outcome[]): { rule: string; share: Share }[] {
  const counts = new Map<string, number>();
  for (const { failing } of well) {
    for (const rule of new Set(failing.map((id) => id.replace(/\.(right|left)$/, '')))) {
      counts.set(rule, (counts.get(rule) ?? 0) + 1);
    }
  }
  return [...counts].sort((a, b) => b[1] - a[1]).map(([rule, k]) => ({ rule, share: { k, n: well.length } }));
}

/** First steps with a probability, in tenths: right where the marker is off and the step leads it back. */
function binsOf(outcomes: readonly Outcome[]): Bin[] {
  const said = outcomes.filter(({ probability }) => probability !== null);
  return Array.from({ length: 10 }, (_, tenth): Bin => {
    const own = said.filter(({ probability }) => Math.min(9, Math.floor(probability! * 10)) === tenth);
    const mean = own.reduce((sum, { probability }) => sum + probability!, 0) / own.length;
    return { from: tenth / 10, meanSaid: mean, right: shareOf(own, ({ rightWay }) => rightWay === true) };
  }).filter(({ right }) => right.n >= leastInBin);
}

function patientRows(parts: readonly PartOutcome[]): PatientRow[] {
  const all = parts.flatMap(({ patients }) => patients);
  return [...new Set(all.map(({ kind }) => kind))].flatMap((kind) =>
    [false, true].map((recorded): PatientRow => {
      const own = all.filter((one) => one.kind === kind && one.recorded === recorded).map(({ outcome }) => outcome);
      const well = own.filter(({ planted }) => planted === 'well-marked');
      const one = own.filter(({ planted }) => planted === 'one');
      return {
        kind,
        recorded,
        flagged: shareOf(well, ({ flagged }) => flagged),
        marker: shareOf(well, ({ namesMarker }) => namesMarker),
        one: { flagged: shareOf(one, ({ flagged }) => flagged), first: shareOf(one, ({ first }) => first) },
      };
    }),
  );
}
