import { measureSensitivity, type SensitivityColumn } from '../../src/core/decision/sensitivity.ts';
import { choleskyInPlace, solveLowerInPlace } from '../../src/core/geometry/cholesky.ts';
import type { Vec3 } from '../../src/core/geometry/vector.ts';
import type { LoadedMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { bodyFromPositions } from '../../src/core/pose/body-from-positions.ts';
import { bodyHeightMm } from '../../src/core/pose/body-height.ts';
import type { StandingBody } from '../../src/core/pose/standing-body.ts';
import { ruleKinds } from '../../src/core/rule-kinds/all-rule-kinds.ts';
import { type AssessedRule, assessRules, isAssessed } from '../../src/core/rules/assess-rules.ts';
import { type ExpectedRule, expectedRules } from '../../src/core/rules/expected-rules.ts';
import { emptySession } from '../../src/core/session/session.ts';
import { leads, mix, sizesMm } from './faults.ts';

/** What the oracle says: log-odds that a marker is off, and the marker it would name first. */
export interface Verdict {
  readonly logOdds: number;
  readonly first: string;
}

/**
 * The best that residuals allow, to first order: it knows the mean and covariance of the residuals of this very population
 * with this very hand, and how faults are planted (which markers, ways and sizes, and how often). The tool has none of
 * that. It looks for one displaced marker; labels and limits are nothing to it.
 */
export interface Oracle {
  judge(marked: ReadonlyMap<string, Vec3>): Verdict;
}

/** @param drawWellMarked draws of the population for the mean and the covariance, not used for anything else */
export function oracle(set: LoadedMarkerSet, drawWellMarked: () => ReadonlyMap<string, Vec3>, people: number): Oracle {
  const expected = expectedRules(set, emptySession);
  const rows = Array.from({ length: people }, () => scaledResiduals(...stand(set, expected, drawWellMarked())));
  const n = rows[0]!.length;
  const mean = new Float64Array(n);
  for (const row of rows) for (let i = 0; i < n; i++) mean[i]! += row[i]! / people;
  const lower = new Float64Array(n * n);
  for (const row of rows) {
    for (let i = 0; i < n; i++) {
      const a = row[i]! - mean[i]!;
      for (let j = 0; j <= i; j++) lower[i * n + j]! += (a * (row[j]! - mean[j]!)) / (people - 1);
    }
  }
  for (let i = 0; i < n; i++) lower[i * n + i]! *= 1 + 1e-6;
  if (!choleskyInPlace(lower, n)) throw new Error('The residuals of the population repeat each other.');
  return {
    judge(marked) {
      const [body, rules] = stand(set, expected, marked);
      const deviation = scaledResiduals(body, rules);
      if (deviation.length !== n) throw new Error('A rule could not be judged that was judged on the population.');
      for (let i = 0; i < n; i++) deviation[i]! -= mean[i]!;
      solveLowerInPlace(lower, n, deviation);
      return judgeWhitened(body, rules, deviation, lower);
    },
  };
}

function stand(
  set: LoadedMarkerSet,
  expected: readonly ExpectedRule[],
  marked: ReadonlyMap<string, Vec3>,
): [StandingBody, AssessedRule[]] {
  const body = bodyFromPositions(set, emptySession, (label) => marked.get(label))!;
  return [body, assessRules(body, expected, emptySession).filter(isAssessed)];
}

/** Lengths as shares of the body's height, so that people of all sizes are of one spread. */
function scaledResiduals(body: StandingBody, rules: readonly AssessedRule[]): Float64Array {
  const perMm = 1 / bodyHeightMm(body);
  return Float64Array.from(rules, ({ rule, parameters }) => {
    const residual = ruleKinds[rule.kind].residual(body.positions, parameters);
    return rule.unit === 'mm' ? residual * perMm : residual;
  });
}

function judgeWhitened(
  body: StandingBody,
  rules: readonly AssessedRule[],
  deviation: Float64Array,
  lower: Float64Array,
): Verdict {
  const { alone, followed } = measureSensitivity(body, rules);
  const perMm = 1 / bodyHeightMm(body);
  const evidence = new Map<string, number>();
  let all = 0;
  const weigh = (column: SensitivityColumn, share: number): void => {
    const { label, slides } = column.definition;
    const g = column.slopes.map((slope, i) => (rules[i]!.rule.unit === 'mm' ? slope * perMm : slope));
    solveLowerInPlace(lower, rules.length, g);
    let pull = 0;
    let information = 0;
    for (let i = 0; i < g.length; i++) {
      pull += g[i]! * deviation[i]!;
      information += g[i]! ** 2;
    }
    const prior = (mix.one / mix.wellMarked) * (share / body.set.markers.length / slides.length / 2 / sizesMm.length);
    let sum = 0;
    for (const size of sizesMm) {
      for (const mm of [size, -size]) sum += prior * Math.exp(mm * pull - (mm * mm * information) / 2);
    }
    evidence.set(label, (evidence.get(label) ?? 0) + sum);
    all += sum;
  };
  for (const column of alone) weigh(column, leads(column.definition.label) ? 0.5 : 1);
  for (const column of followed) if (leads(column.definition.label)) weigh(column, 0.5);
  const [first] = [...evidence].sort((a, b) => b[1] - a[1])[0]!;
  return { logOdds: Math.log(all), first };
}
