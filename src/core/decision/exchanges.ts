import { logDeterminant } from '../geometry/cholesky.ts';
import { breaksOrderOf, brokenOrders } from '../labels/broken-orders.ts';
import { exchange, isSeen } from '../labels/exchange.ts';
import { type StandingBody, withMarkersAt } from '../pose/standing-body.ts';
import type { BodyModel } from './body-model.ts';
import { type MarkerWay, screenSingles } from './explanations.ts';

/** Two labels that stand on each other's marker, with at most one marker displaced. */
export interface ExchangeExplanation {
  /** Indices into the set's markers. */
  readonly pair: readonly [number, number];
  readonly ways: readonly MarkerWay[];
  /** Log of prior odds times evidence, against "nothing is wrong". */
  readonly logOdds: number;
}

/** Odds that two labels are exchanged which the order of the body does not show; from memory. */
const oftenSwappedOdds = 0.002;
const otherwiseOdds = 0.0002;

/**
 * Exchanged labels as explanations. Whole exchanges are found by the order of the body before; what is weighed here are
 * those that this order allows as well as the labels as they stand, or better. The evidence is the ratio of the densities
 * of the exchanged body and of the body as labelled, each by its own expectation, times that of one displaced marker.
 */
export function weighExchanges(
  model: BodyModel,
  modelOf: (exchanged: StandingBody) => BodyModel | null,
): ExchangeExplanation[] {
  const asLabelled = logDensity(model);
  return allowedExchanges(model.body).flatMap((pair): ExchangeExplanation[] => {
    const lab = model.body.lab.slice();
    exchange(lab, ...pair);
    const exchanged = modelOf(withMarkersAt(model.body, lab));
    // Figures of other rules could not be compared.
    if (exchanged === null || exchanged.rules.length !== model.rules.length) return [];
    const logOdds = Math.log(priorOdds(model.body, pair)) + logDensity(exchanged) - asLabelled;
    if (!Number.isFinite(logOdds)) return [];
    const { whitened, ways, varianceMm2 } = exchanged;
    const singles = screenSingles(whitened, ways, varianceMm2);
    return [
      { pair, ways: [], logOdds },
      ...ways.map((way, index) => ({ pair, ways: [way], logOdds: logOdds + singles[index]! })),
    ];
  });
}

/** Pairs of one side, or of one landmark, whose exchange breaks no order of the body that holds now. */
function allowedExchanges({ set, positions }: StandingBody): [number, number][] {
  const broken = brokenOrders(positions, set);
  const x = positions.slice(0, set.markers.length * 3);
  const pairs: [number, number][] = [];
  set.markers.forEach((first, a) => {
    for (let b = a + 1; b < set.markers.length; b++) {
      const second = set.markers[b]!;
      const mirrored = first.mirror === second.label;
      const alike = first.side === second.side && first.side !== 'midline';
      if (!(alike || mirrored) || !isSeen(x, a) || !isSeen(x, b)) continue;
      exchange(x, a, b);
      const [right, left] = first.side === 'right' ? [a, b] : [b, a];
      const crossed = mirrored && x[left * 3 + 1]! < x[right * 3 + 1]!;
      if (!crossed && !breaksOrderOf(x, set, a, b, broken)) pairs.push([a, b]);
      exchange(x, a, b);
    }
  });
  return pairs;
}

function priorOdds({ set }: StandingBody, [a, b]: readonly [number, number]): number {
  const labels = [set.markers[a]!.label, set.markers[b]!.label];
  const often = set.oftenSwapped.some((pair) => pair.every((label) => labels.includes(label)));
  return often ? oftenSwappedOdds : otherwiseOdds;
}

/** Log density of the residuals of a well-marked person, but for the constant. */
function logDensity({ whitened: { surprise, lower, rules } }: BodyModel): number {
  return -(surprise + logDeterminant(lower, rules)) / 2;
}
