import { logEvidenceUnusual, type WhitenedModel } from './evidence.ts';

/** One way to explain all findings together, and how strongly the figures speak for it. */
export interface Explanation {
  readonly kind: 'well-marked' | 'displaced' | 'unusual-body';
  /** The ways in which markers are displaced; none for a body that is well marked or unusual. */
  readonly ways: readonly MarkerWay[];
  /** Log of prior odds times evidence, against "nothing is wrong". */
  readonly logOdds: number;
}

export function columnsOf({ ways }: Explanation): number[] {
  return ways.flatMap(({ columns }) => columns);
}

/** Marker of each column of an explanation. */
export function columnMarkersOf({ ways }: Explanation): number[] {
  return ways.flatMap(({ columns, marker }) => columns.map(() => marker));
}

export function logPriorOf({ kind, ways }: Explanation): number {
  const start = kind === 'unusual-body' ? Math.log(unusualOdds) : 0;
  return ways.reduce((sum, { odds }) => sum + Math.log(odds), start);
}

/** One way in which a marker, or a reading, may be off, and what is believed of it before anything is measured. */
export interface MarkerWay {
  /** Index of the marker in its set; a reading of the sheet counts on from there. */
  readonly marker: number;
  readonly columns: readonly number[];
  readonly odds: number;
  readonly isReading: boolean;
}

/** "Unusual body": three times the usual spread. */
const unusualInflation = 9;
const unusualOdds = 0.01;

/** Explanations further below the best one than this, in log-odds, are not kept: together they weigh nothing. */
const keptWithin = 16;

/**
 * Every explanation with one, two or three displaced markers, in closed form. Singles and pairs take every way of every
 * marker; triples take each marker in the way that explains most by itself, about 1,800 for 22 markers, and readings that
 * explain anything. Of all of them
 * those are returned that weigh anything, "nothing is wrong" first, the others not sorted.
 */
export function screenExplanations(
  model: WhitenedModel,
  ways: readonly MarkerWay[],
  varianceMm2: Float64Array,
): Explanation[] {
  const logPriors = Float64Array.from(ways, ({ odds }) => Math.log(odds));
  const screen = new Screen(model, ways, varianceMm2);
  const found: Explanation[] = [];
  let best = 0;
  const note = (logOdds: number, ...chosen: MarkerWay[]): void => {
    if (logOdds < best - keptWithin) return;
    if (logOdds > best) best = logOdds;
    found.push({ kind: 'displaced', ways: chosen, logOdds });
  };
  const single = ways.map((_, a) => logPriors[a]! + screen.add(0, a));
  single.forEach((odds, a) => note(odds, ways[a]!));
  for (let a = 0; a < ways.length; a++) {
    screen.add(0, a);
    for (let b = a + 1; b < ways.length; b++) {
      if (ways[a]!.marker !== ways[b]!.marker)
        note(logPriors[a]! + logPriors[b]! + screen.add(1, b), ways[a]!, ways[b]!);
    }
  }
  const each = bestWays(ways, single).filter((a) => !ways[a]!.isReading || single[a]! > logPriors[a]!);
  each.forEach((a, i) => {
    screen.add(0, a);
    for (let j = i + 1; j < each.length; j++) {
      const b = each[j]!;
      screen.add(1, b);
      const logPrior = logPriors[a]! + logPriors[b]!;
      for (let k = j + 1; k < each.length; k++) {
        const c = each[k]!;
        note(logPrior + logPriors[c]! + screen.add(2, c), ways[a]!, ways[b]!, ways[c]!);
      }
    }
  });
  return [
    { kind: 'well-marked', ways: [], logOdds: 0 },
    {
      kind: 'unusual-body',
      ways: [],
      logOdds: Math.log(unusualOdds) + logEvidenceUnusual(model, unusualInflation),
    },
    ...found.filter(({ logOdds }) => logOdds >= best - keptWithin),
  ];
}

/** Log of prior odds times evidence for each way by itself. */
export function screenSingles(
  model: WhitenedModel,
  ways: readonly MarkerWay[],
  varianceMm2: Float64Array,
): Float64Array {
  const screen = new Screen(model, ways, varianceMm2);
  return Float64Array.from(ways, ({ odds }, way) => Math.log(odds) + screen.add(0, way));
}

/** For each marker the way that explains most by itself. */
function bestWays(ways: readonly MarkerWay[], single: readonly number[]): number[] {
  const best = new Map<number, number>();
  ways.forEach(({ marker }, index) => {
    const held = best.get(marker);
    if (held === undefined || single[index]! > single[held]!) best.set(marker, index);
  });
  return [...best.values()];
}

const mostColumns = 8;

/**
 * Log evidence ratios (see evidence.ts) of ways added one after another: the factor of S^-1 + H grows by the rows of the
 * way added and keeps those of the ways before it, so that a triple costs no more than its last marker.
 */
class Screen {
  private readonly lower = new Float64Array(mostColumns * mostColumns);
  private readonly solved = new Float64Array(mostColumns);
  private readonly column = new Int32Array(mostColumns);
  /** Rows, sum of squares and product of the diagonal after each level; level 0 is the first way. */
  private readonly rows = new Int32Array(4);
  private readonly gain = new Float64Array(4);
  private readonly volume = Float64Array.of(1, 1, 1, 1);
  private readonly sdMm: Float64Array;
  private readonly model: WhitenedModel;
  private readonly ways: readonly MarkerWay[];

  constructor(model: WhitenedModel, ways: readonly MarkerWay[], varianceMm2: Float64Array) {
    this.model = model;
    this.ways = ways;
    this.sdMm = varianceMm2.map(Math.sqrt);
  }

  /** Log evidence ratio of the ways at the levels below and this one. */
  add(level: number, way: number): number {
    const { lower, solved, column, model, sdMm } = this;
    const { information, pull, columns: width } = model;
    let row = this.rows[level]!;
    let gain = this.gain[level]!;
    let volume = this.volume[level]!;
    for (const own of this.ways[way]!.columns) {
      const at = row * mostColumns;
      let diagonal = information[own * width + own]! + 1 / sdMm[own]! ** 2;
      let right = pull[own]!;
      for (let j = 0; j < row; j++) {
        let value = information[own * width + column[j]!]!;
        for (let t = 0; t < j; t++) value -= lower[at + t]! * lower[j * mostColumns + t]!;
        value /= lower[j * mostColumns + j]!;
        lower[at + j] = value;
        diagonal -= value * value;
        right -= value * solved[j]!;
      }
      if (!(diagonal > 0)) return Number.NEGATIVE_INFINITY;
      const root = Math.sqrt(diagonal);
      lower[at + row] = root;
      solved[row] = right / root;
      column[row] = own;
      gain += solved[row]! ** 2;
      volume *= root * sdMm[own]!;
      row += 1;
    }
    this.rows[level + 1] = row;
    this.gain[level + 1] = gain;
    this.volume[level + 1] = volume;
    return gain / 2 - Math.log(volume);
  }
}

/** Probabilities of all explanations together; they add up to 1. */
export function probabilitiesOf(explanations: readonly { readonly logOdds: number }[]): Float64Array {
  const highest = explanations.reduce((most, { logOdds }) => Math.max(most, logOdds), Number.NEGATIVE_INFINITY);
  const weights = Float64Array.from(explanations, ({ logOdds }) => Math.exp(logOdds - highest));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}
