import type { Norms } from '../../src/core/decision/norms.ts';
import type { Vec3 } from '../../src/core/geometry/vector.ts';
import type { LoadedMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { bodyFromPositions } from '../../src/core/pose/body-from-positions.ts';
import { emptySession, type Session } from '../../src/core/session/session.ts';
import { type Displaced, directionsOf, drawPlanted, type Planted, pick, sizesMm, wellMarked } from './faults.ts';
import { type Findings, findingsOf } from './findings.ts';
import { hands } from './hands.ts';
import { type Oracle, oracle } from './oracle.ts';
import { patientKinds } from './patients.ts';
import { placeMarkers, wayOf } from './place-markers.ts';
import { population } from './population.ts';
import { randomFor } from './random-for.ts';

/** One population, marked by one hand: what is measured in one go, and apart from all others. */
export interface Part {
  readonly seed: number;
  readonly population: number;
  readonly hand: number;
  /** People for each size of fault. */
  readonly people: number;
  /** People for each direction and size of fault. */
  readonly perDirection: number;
  /** People from whom the oracle learns. */
  readonly forOracle: number;
}

/** What came of one person. */
export interface Outcome {
  readonly planted: 'well-marked' | 'one' | 'two' | 'exchanged';
  readonly sizeMm: number;
  /** Of one displaced marker: set by eye, or palpated and off by itself or with those set on it. */
  readonly how: 'by-eye' | 'alone' | 'followed' | null;
  readonly flagged: boolean;
  /** The first step names a displaced marker; of exchanged labels: a step names both. */
  readonly first: boolean;
  /** It or one of the steps after it does. */
  readonly among: boolean;
  /** Of a marker named first: whether the step points back to where it belongs, and by how much its distance is out. */
  readonly rightWay: boolean | null;
  readonly errorMm: number | null;
  readonly probability: number | null;
  readonly failing: readonly string[];
  readonly standAgain: boolean;
  readonly namesMarker: boolean;
  readonly oracle: { readonly logOdds: number; readonly first: boolean } | null;
}

export interface PartOutcome {
  readonly part: Part;
  readonly mixed: readonly Outcome[];
  /** Index as `directionsOf`. */
  readonly directions: readonly { readonly direction: number; readonly outcome: Outcome }[];
  readonly patients: readonly {
    readonly kind: number;
    readonly recorded: boolean;
    readonly outcome: Outcome;
  }[];
}

/** Patients are marked by this hand, and their faults are of this size. */
export const patientHand = 1;
export const patientFaultMm = 20;

export function measurePart(part: Part, set: LoadedMarkerSet, norms: Norms): PartOutcome {
  const hand = hands[part.hand]!;
  const source = (purpose: number) => randomFor(part.seed, part.population, part.hand, purpose);
  // Every purpose draws from the same population with people of its own.
  const people = population(part.seed * 1000 + part.population);
  const learning = source(1);
  const judge = oracle(set, () => placeMarkers(set, people.draw(), hand, [], learning), part.forOracle);

  const mixedSource = source(2);
  const mixed = sizesMm.flatMap((sizeMm) =>
    Array.from({ length: part.people }, () => {
      const planted = drawPlanted(set, sizeMm, mixedSource);
      const marked = placeMarkers(set, people.draw(), hand, planted.displaced, mixedSource);
      return outcomeOf(set, norms, emptySession, exchange(marked, planted), planted, sizeMm, judge);
    }),
  );

  const directionSource = source(3);
  const directions = directionsOf(set).flatMap((direction, index) =>
    sizesMm.flatMap((sizeMm) =>
      Array.from({ length: part.perDirection }, () => {
        const { label } = pick(direction.markers, directionSource);
        const { slide, before, sign } = direction;
        const planted: Planted = { ...wellMarked, displaced: [{ label, slide, before, mm: sign * sizeMm }] };
        const marked = placeMarkers(set, people.draw(), hand, planted.displaced, directionSource);
        return {
          direction: index,
          outcome: outcomeOf(set, norms, emptySession, marked, planted, sizeMm, judge),
        };
      }),
    ),
  );

  const patientSource = source(4);
  const patients =
    part.hand !== patientHand
      ? []
      : patientKinds.flatMap((kind, index) =>
          Array.from({ length: part.people }, () => {
            const { person, recorded, raisedMm } = kind.draw(people, patientSource);
            const planted = drawPlanted(set, patientFaultMm, patientSource);
            const marked = placeMarkers(set, person, hand, planted.displaced, patientSource, raisedMm);
            const shown = exchange(marked, planted);
            return [emptySession, recorded].map((session) => ({
              kind: index,
              recorded: session === recorded,
              outcome: outcomeOf(set, norms, session, shown, planted, patientFaultMm, null),
            }));
          }).flat(),
        );
  return { part, mixed, directions, patients };
}

function exchange(marked: Map<string, Vec3>, { exchanged }: Planted): Map<string, Vec3> {
  if (exchanged === null) return marked;
  const [a, b] = exchanged;
  return new Map(marked).set(a, marked.get(b)!).set(b, marked.get(a)!);
}

function outcomeOf(
  set: LoadedMarkerSet,
  norms: Norms,
  session: Session,
  marked: ReadonlyMap<string, Vec3>,
  planted: Planted,
  sizeMm: number,
  judge: Oracle | null,
): Outcome {
  const found = findingsOf(marked, set, norms, session);
  const { displaced, exchanged } = planted;
  const named = found.steps[0];
  const fault = displaced.find(({ label }) => label === named?.marker);
  const said = fault === undefined ? null : compare(set, marked, fault, found);
  const verdict = judge === null || exchanged !== null ? null : judge.judge(marked);
  const relabelled =
    exchanged !== null && found.relabels.some((says) => exchanged.every((label) => says.includes(label)));
  return {
    planted:
      exchanged !== null
        ? 'exchanged'
        : displaced.length === 0
          ? 'well-marked'
          : displaced.length === 1
            ? 'one'
            : 'two',
    sizeMm,
    how: displaced.length !== 1 ? null : howOf(set, displaced[0]!),
    flagged: found.flagged,
    first: fault !== undefined || relabelled,
    among: relabelled || found.steps.some(({ marker }) => displaced.some(({ label }) => label === marker)),
    rightWay: said === null ? null : said.rightWay,
    errorMm: said === null ? null : said.errorMm,
    probability: named?.probability ?? null,
    failing: found.failing,
    standAgain: found.standAgain,
    namesMarker: named !== undefined || found.relabels.length > 0,
    oracle:
      verdict === null
        ? null
        : { logOdds: verdict.logOdds, first: displaced.some(({ label }) => label === verdict.first) },
  };
}

function howOf(set: LoadedMarkerSet, { label, before }: Displaced): Outcome['how'] {
  if (set.markers.find((marker) => marker.label === label)!.placedBy === 'eye') return 'by-eye';
  return before ? 'followed' : 'alone';
}

/** The first step against what was planted: it should undo it. */
function compare(
  set: LoadedMarkerSet,
  marked: ReadonlyMap<string, Vec3>,
  fault: Displaced,
  { steps }: Findings,
): { rightWay: boolean; errorMm: number } {
  const body = bodyFromPositions(set, emptySession, (label) => marked.get(label))!;
  const way = wayOf(body, fault);
  const along = way.reduce((sum, value, axis) => sum + value * steps[0]!.mm[axis]!, 0);
  return { rightWay: along * fault.mm < 0, errorMm: Math.abs(along + fault.mm) };
}
