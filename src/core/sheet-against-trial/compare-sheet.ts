import type { ComparisonDefinition } from '../marker-set/comparison-definition.ts';
import type { Measure } from '../marker-set/measure.ts';
import { isConfirmed } from '../measurements/check-sheet.ts';
import type { Person } from '../measurements/expected-size.ts';
import { findQuantity, keyOf, type Quantity } from '../measurements/quantities.ts';
import { laySheet } from '../measurements/sheet.ts';
import type { SheetFinding } from '../measurements/sheet-finding.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import type { StanceOutcome } from '../rules/assess-stance.ts';
import type { Session } from '../session/session.ts';
import { comparisonKindReaders } from './all-comparison-kinds.ts';
import type { ComparedRow, DoubtfulReading, NotCompared, SheetComparison } from './sheet-comparison.ts';
import { type SheetRow, sheetRows } from './sheet-rows.ts';
import { whyNotStraight } from './stands-straight.ts';

/** How far a reading is off when it was misread, 1 SD in mm: from memory, no study in our sources tells. */
const misreadSdMm: Readonly<Partial<Record<Measure, number>>> = {
  stature: 60,
  pelvisWidth: 25,
  asisTrochanterDepth: 20,
  kneeDiameter: 12,
  ankleDiameter: 10,
  legLength: 30,
};
/** Odds that a reading was misread, as those of a marker; from memory. */
const misreadOdds = 0.03;
/** One that was taken again and found right is wrong fifty times less often. */
const confirmedShare = 1 / 50;

/** Findings of the sheet by itself after which a reading is no longer worth comparing: it is taken again first. */
const settledBefore: readonly SheetFinding['check'][] = ['unit-slip', 'exchanged', 'repeats', 'plausible-band'];

/**
 * Compares the hand measurements with what the markers foretell, and with each other: rows for the weighing of readings
 * and markers together. Null where the set compares nothing, or nothing was measured that it compares.
 * @param findings what the sheet by itself has shown
 */
export function compareSheet(
  body: StandingBody,
  session: Session,
  findings: readonly SheetFinding[],
  stance: readonly StanceOutcome[],
): SheetComparison | null {
  if (session.measurements.length === 0 || body.set.comparisons.length === 0) return null;
  const sheet = laySheet(session);
  const toRepeat = new Set(
    findings
      .filter(({ check, status }) => status === 'repeat' && settledBefore.includes(check))
      .flatMap(({ readings }) => readings.map(keyOf)),
  );
  const readings = sheet.quantities.filter(
    (quantity) => misreadSdMm[quantity.measure] !== undefined && !toRepeat.has(keyOf(quantity)),
  );
  const made: { row: Omit<ComparedRow, 'slopes'>; comparison: ComparisonDefinition }[] = [];
  const notCompared: NotCompared[] = [];
  for (const comparison of body.set.comparisons) {
    const name = { measure: comparison.measure, side: comparison.measure === 'stature' ? null : comparison.side };
    const quantity = findQuantity(sheet.quantities, name.measure, name.side);
    if (quantity === null) continue;
    const reading = readings.indexOf(quantity);
    const prediction = predict(comparison, body, session, sheet.person, stance, reading >= 0);
    if ('reason' in prediction) {
      notCompared.push({ ...name, title: comparison.title, reason: prediction.reason });
      continue;
    }
    const { mean } = quantity;
    const { foretold } = prediction;
    const row = {
      id: comparison.id,
      title: comparison.title,
      reading,
      markers: comparison.markers,
      residual: (positions: Float64Array): number => foretold(positions) - mean,
    };
    made.push({ row, comparison });
  }
  if (made.length === 0 && notCompared.length === 0) return null;
  const among = sheetRows(sheet, readings);
  const rows = [
    ...made.map(({ row }) => ({ ...row, slopes: oneReading(readings.length, row.reading, -1) })),
    ...among.map(
      ({ id, reading, residualMm, slopes }): ComparedRow => ({
        id,
        title: '',
        reading,
        markers: [],
        residual: () => residualMm,
        slopes,
      }),
    ),
  ];
  return {
    readings: readings.map((quantity) => asDoubtful(quantity, session)),
    rows,
    trialRows: made.length,
    covariance: covarianceOf(
      made.map(({ comparison }) => comparison),
      among,
    ),
    notCompared,
  };
}

function predict(
  comparison: ComparisonDefinition,
  body: StandingBody,
  session: Session,
  person: Person,
  stance: readonly StanceOutcome[],
  isComparable: boolean,
): { foretold: (positions: Float64Array) => number } | { reason: string } {
  if (!isComparable) return { reason: 'the reading is to be taken again first' };
  const unseen = comparison.markers.filter((label) => !body.geometry.has(label));
  if (unseen.length > 0) return { reason: `${unseen.join(' and ')} ${unseen.length === 1 ? 'is' : 'are'} not seen` };
  const bent = comparison.kind === 'stature-from-height' ? whyNotStraight(session, stance) : null;
  if (bent !== null) return { reason: bent };
  const foretold = comparisonKindReaders[comparison.kind](comparison, body, person);
  if (typeof foretold !== 'function') return foretold;
  if (!Number.isFinite(foretold(body.positions))) return { reason: 'the markers of the pelvis do not give its axes' };
  return { foretold };
}

function asDoubtful(quantity: Quantity, session: Session): DoubtfulReading {
  return {
    measure: quantity.measure,
    side: quantity.side,
    mm: quantity.mean,
    misreadSdMm: misreadSdMm[quantity.measure]!,
    odds: misreadOdds * (isConfirmed(quantity, session) ? confirmedShare : 1),
  };
}

function oneReading(count: number, reading: number, slope: number): Float64Array {
  const slopes = new Float64Array(count);
  slopes[reading] = slope;
  return slopes;
}

/** Rows of two sides share what a person's sides share; otherwise rows are independent, but for what they have in common. */
function covarianceOf(made: readonly ComparisonDefinition[], among: readonly SheetRow[]): Float64Array {
  const entries = [
    ...made.map(({ id, side, spreadMm, alikeMm }) => ({
      stem: side === null ? id : id.slice(0, -side.length),
      spreadMm,
      alikeMm,
    })),
    ...among.map(({ stem, spreadMm, alikeMm }) => ({ stem: `sheet ${stem}`, spreadMm, alikeMm })),
  ];
  const n = entries.length;
  const covariance = new Float64Array(n * n);
  entries.forEach((a, i) => {
    entries.forEach((b, j) => {
      if (i === j) covariance[i * n + j] = a.spreadMm ** 2 + a.alikeMm ** 2;
      else if (a.stem === b.stem) covariance[i * n + j] = a.alikeMm * b.alikeMm;
    });
  });
  return covariance;
}
