import type { StandingBody } from '../pose/standing-body.ts';
import { turnView } from '../pose/views.ts';
import { ruleKinds } from '../rule-kinds/all-rule-kinds.ts';
import type { AssessedRule } from '../rules/assess-rules.ts';
import type { SheetComparison } from '../sheet-against-trial/sheet-comparison.ts';
import type { Norms } from './norms.ts';
import type { Sensitivity } from './sensitivity.ts';

/** What is expected of a well-marked person like this one. */
export interface WellMarked {
  /** Residual minus expected residual. */
  readonly deviation: Float64Array;
  /** Covariance, row-major, full. */
  readonly covariance: Float64Array;
}

/** Added to every variance relative to itself, so that rules that repeat each other do not make the matrix singular. */
const relativeJitter = 1e-6;

/**
 * Expected residuals and their covariance for the rules that could be judged: norms of anatomy and posture, scaled to
 * the size of this body; the scatter of the hand, where the norms do not hold it; the error of averaging; and what an
 * unmeasured direction of view adds.
 * @param rules those `rulesWithNorms` chose; rows and columns follow their order
 * @param sheet hand measurements that are weighed with them; their rows come after the rules
 */
export function expectWellMarked(
  body: StandingBody,
  rules: readonly AssessedRule[],
  norms: Norms,
  bodyHeightMm: number,
  sensitivity: Sensitivity,
  sheet: SheetComparison | null = null,
): WellMarked {
  const rowOf = new Map(norms.residuals.map((id, row) => [id, row]));
  const compared = sheet?.rows ?? [];
  const n = rules.length + compared.length;
  const size = bodyHeightMm / norms.bodyHeightMm;
  const scale = rules.map(({ rule }) => (rule.unit === 'mm' ? size : 1));
  const rows = rules.map(({ rule }) => rowOf.get(rule.id)!);
  const deviation = new Float64Array(n);
  const covariance = new Float64Array(n * n);
  for (let i = 0; i < rules.length; i++) {
    const { rule, parameters } = rules[i]!;
    deviation[i] = ruleKinds[rule.kind].residual(body.positions, parameters) - norms.mean[rows[i]!]! * scale[i]!;
    for (let j = 0; j <= i; j++) {
      covariance[i * n + j] = packed(norms.covariance, rows[i]!, rows[j]!) * scale[i]! * scale[j]!;
    }
  }
  compared.forEach((row, i) => {
    const at = rules.length + i;
    deviation[at] = row.residual(body.positions);
    for (let j = 0; j <= i; j++) covariance[at * n + rules.length + j] = sheet!.covariance[i * compared.length + j]!;
  });
  // Norms that hold the scatter already hold that of the rules only.
  addScatter(covariance, n, sensitivity, norms.includesScatter ? rules.length : 0);
  addViews(covariance, n, rules, body);
  for (let i = 0; i < n; i++) {
    covariance[i * n + i]! += (rules[i]?.averagingSd ?? 0) ** 2;
    covariance[i * n + i]! *= 1 + relativeJitter;
    for (let j = 0; j < i; j++) covariance[j * n + i] = covariance[i * n + j]!;
  }
  return { deviation, covariance };
}

/** Rules that take part: judged, not waived, and known to the norms. The others drop out as rows and columns. */
export function rulesWithNorms(assessed: readonly AssessedRule[], norms: Norms): AssessedRule[] {
  const known = new Set(norms.residuals);
  return assessed.filter(({ rule, status }) => status !== 'accepted' && known.has(rule.id));
}

function packed(triangle: readonly number[], a: number, b: number): number {
  const row = Math.max(a, b);
  return triangle[(row * (row + 1)) / 2 + Math.min(a, b)]!;
}

/**
 * Every marker along every slide, by the precision the set states for it; what follows it was set on it.
 * @param from row from which on it is added, with the covariances to those above
 */
function addScatter(covariance: Float64Array, n: number, sensitivity: Sensitivity, from: number): void {
  for (const { scatterMm, slopes } of sensitivity.followed) {
    const variance = scatterMm ** 2;
    for (let i = from; i < n; i++) {
      if (slopes[i] === 0) continue;
      for (let j = 0; j <= i; j++) covariance[i * n + j]! += variance * slopes[i]! * slopes[j]!;
    }
  }
}

/**
 * An estimated direction of view is off by one and the same angle for every rule that looks along it, or along a view
 * that is turned from it.
 */
function addViews(covariance: Float64Array, n: number, rules: readonly AssessedRule[], body: StandingBody): void {
  for (const view of body.set.views) {
    const { ownSdDeg } = body.geometry.view(view.name);
    if (ownSdDeg === 0) continue;
    const turned = body.set.views
      .filter(({ name, base }) => name === view.name || base === view.name)
      .map(({ name }) => name);
    const effect = rules.map((rule) => turnEffect(body, rule, turned, ownSdDeg));
    for (let i = 0; i < rules.length; i++) {
      for (let j = 0; j <= i; j++) covariance[i * n + j]! += effect[i]! * effect[j]!;
    }
  }
}

function turnEffect(
  body: StandingBody,
  { rule, parameters }: AssessedRule,
  views: readonly string[],
  sdDeg: number,
): number {
  const kind = ruleKinds[rule.kind];
  const used = kind
    .needs(rule)
    .views.filter((name) => views.includes(name) && body.geometry.view(name).from !== 'markers');
  if (used.length === 0) return 0;
  const turned = (sign: number): number => {
    const positions = body.positions.slice();
    for (const name of used) turnView(positions, body.geometry.lookup.view(name), sign * sdDeg);
    return kind.residual(positions, parameters);
  };
  return (turned(1) - turned(-1)) / 2;
}
