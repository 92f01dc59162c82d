import { bodyHeightMm } from '../pose/body-height.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import type { SheetComparison } from '../sheet-against-trial/sheet-comparison.ts';
import { type WhitenedModel, whiten } from './evidence.ts';
import type { MarkerWay } from './explanations.ts';
import { rowsThatAddNothing } from './independent-rows.ts';
import type { Norms } from './norms.ts';
import { measureSensitivity, type SensitivityColumn } from './sensitivity.ts';
import { expectWellMarked } from './well-marked.ts';

/** One body as the weighing sees it: what is expected of it, and what each marker does to each rule. */
export interface BodyModel {
  readonly body: StandingBody;
  readonly rules: readonly AssessedRule[];
  /** Hand measurements weighed with the markers; their rows come after the rules. */
  readonly sheet: SheetComparison | null;
  /** Residual minus expected residual of each row. */
  readonly deviation: Float64Array;
  /** Ways of markers; those of readings come after them, one column each. */
  readonly columns: readonly SensitivityColumn[];
  /** Variance of the displacement along each column, mm2, and of each reading. */
  readonly varianceMm2: Float64Array;
  readonly ways: readonly MarkerWay[];
  readonly whitened: WhitenedModel;
}

/**
 * Sets up the weighing of a body. Rules that say what others say already are left out, by the rank of the covariance.
 * Null where no rule is left or the figures cannot be weighed.
 *
 * @param rules those `rulesWithNorms` chose
 * @param trusted markers confirmed on the bone
 * @param sheet hand measurements compared with the markers, null where there is nothing to compare
 */
export function modelBody(
  body: StandingBody,
  rules: readonly AssessedRule[],
  norms: Norms,
  trusted: ReadonlySet<string>,
  sheet: SheetComparison | null = null,
): BodyModel | null {
  if (rules.length === 0) return null;
  const sensitivity = measureSensitivity(body, rules, sheet?.rows);
  const expected = expectWellMarked(body, rules, norms, bodyHeightMm(body), sensitivity, sheet);
  const columns = [...sensitivity.alone, ...sensitivity.followed];
  const readings = sheet?.readings ?? [];
  const whitened = whiten(expected, [
    ...columns.map(({ slopes }) => slopes),
    ...readings.map((_, reading) => slopesOf(reading, rules.length, sheet!)),
  ]);
  if (whitened === null) {
    const repeated = rowsThatAddNothing(expected.covariance, expected.deviation.length);
    const others = rules.filter((_, row) => !repeated.includes(row));
    return others.length === rules.length ? null : modelBody(body, others, norms, trusted, sheet);
  }
  return {
    body,
    rules,
    sheet,
    deviation: expected.deviation,
    columns,
    varianceMm2: Float64Array.from([
      ...columns.map(({ definition }) => definition.misplacement.sdMm ** 2),
      ...readings.map(({ misreadSdMm }) => misreadSdMm ** 2),
    ]),
    ways: [
      ...waysOf(columns, sensitivity.alone.length, trusted),
      ...readings.map(({ odds }, reading) => ({
        marker: body.set.markers.length + reading,
        columns: [columns.length + reading],
        odds,
        isReading: true,
      })),
    ],
    whitened,
  };
}

/** What a reading that is too large does to every row; nothing to rules, which look at markers alone. */
function slopesOf(reading: number, rules: number, { rows }: SheetComparison): Float64Array {
  const slopes = new Float64Array(rules + rows.length);
  rows.forEach((row, index) => {
    slopes[rules + index] = row.slopes[reading]!;
  });
  return slopes;
}

/** A confirmed marker is off fifty times less often than an unconfirmed one. */
const trustedShare = 1 / 50;

/**
 * The ways in which each marker may be off: by itself, and for a landmark that markers were set on, with those. The odds
 * of a marker are shared between its ways.
 */
function waysOf(columns: readonly SensitivityColumn[], alone: number, trusted: ReadonlySet<string>): MarkerWay[] {
  const ways = new Map<string, { marker: number; columns: number[]; odds: number; isReading: boolean }>();
  columns.forEach(({ marker, definition }, index) => {
    const isFollowed = index >= alone;
    if (definition.purpose === 'tracks') return;
    const leads = columns.some((column, at) => at >= alone && column.marker === marker && column.shifts.length > 1);
    if (isFollowed && !leads) return;
    const key = `${marker}/${isFollowed}`;
    const share = leads ? 0.5 : 1;
    const belief = definition.misplacement.odds * (trusted.has(definition.label) ? trustedShare : 1) * share;
    const way = ways.get(key) ?? { marker, columns: [], odds: belief, isReading: false };
    way.columns.push(index);
    ways.set(key, way);
  });
  return [...ways.values()];
}
