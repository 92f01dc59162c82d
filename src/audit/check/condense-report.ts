import type { MarkerSet } from '../../core/marker-set/marker-set.ts';
import { markersBehindPoint } from '../../core/marker-set/markers-behind.ts';
import type { Move } from '../../core/moves/move.ts';
import type { Report, ReportedRule } from '../../core/report/report.ts';
import { roundTo } from '../../core/report/rounding.ts';
import { ruleKinds } from '../../core/rule-kinds/all-rule-kinds.ts';
import type { CheckResult, StepResult, TrialResult } from './trial-result.ts';

/** Thousandths: far below what any marker is placed to, and sums of them are exact. */
const decimals = 3;

/** What an audit needs of a report: figures, no words. */
export function condenseReport(
  report: Report,
  set: MarkerSet,
): Omit<TrialResult, 'sessionSha256' | 'session' | 'recorded' | 'sessionFault'> {
  const unreadable = report.problems.find(({ code }) => code === 'file-unreadable');
  return {
    sha256: report.trial.sha256,
    markerSet: report.markerSet.sha256,
    norms: report.norms === null ? null : `${report.norms.name} ${report.norms.version}`,
    tool: report.tool.version,
    verdict: report.verdict,
    rulesAssessed: report.coverage.assessed,
    frames: report.trial.frames,
    rateHz: thousandths(report.trial.rateHz),
    swayMm: thousandths(report.trial.window?.swayMm ?? null),
    bodyHeightMm: thousandths(heightIn(report, set)),
    optionalMarkers: set.markers
      .filter(({ label, presence }) => presence !== 'required' && report.markers[label] !== undefined)
      .map(({ label }) => label),
    checks: report.rules.map((rule) => checkOf(rule, residualOf(rule, report, set))),
    steps: report.moves.map(stepOf),
    problems: report.problems.map(({ code, markers }) => ({ code, markers })),
    fault: unreadable?.message ?? null,
  };
}

function checkOf(rule: ReportedRule, residual: number | null): CheckResult {
  const { status, value, target, limit, uncertainty } = rule;
  return [
    status,
    thousandths(value),
    thousandths(target ?? null),
    thousandths(limit),
    thousandths(uncertainty),
    // A ratio of lengths spreads by a few hundredths.
    residual === null ? null : roundTo(rule.unit === 'ratio' ? decimals + 3 : decimals, residual),
  ];
}

/**
 * What the value is off the reference of its limits. None where the rule looks along a direction that was not measured
 * by markers: its uncertainty is the trial's own and would be taken for a difference between people.
 */
function residualOf(rule: ReportedRule, report: Report, set: MarkerSet): number | null {
  const { value, target, range } = rule;
  if (value === null || rule.status === 'not-assessed') return null;
  const definition = set.rules.find(({ id }) => id === rule.id)!;
  const isSeen = (point: string): boolean =>
    [...markersBehindPoint(set, point)].every((marker) => report.markers[marker] !== undefined);
  const { views } = ruleKinds[definition.kind].needs(definition);
  const isMeasured = views.every((name) => {
    const { from, to } = set.views.find((view) => view.name === name)!;
    return isSeen(from) && isSeen(to);
  });
  if (!isMeasured) return null;
  const reference = target ?? (range === undefined ? undefined : middleOf(range));
  return reference === undefined ? null : value - reference;
}

function middleOf([low, high]: NonNullable<ReportedRule['range']>): number | undefined {
  return low === null ? (high ?? undefined) : high === null ? low : (low + high) / 2;
}

/** As core/pose/body-height.ts has it. */
function heightIn({ markers }: Report, { bodyAxes }: MarkerSet): number | null {
  const meanUp = (labels: readonly string[]): number => {
    const up = labels.flatMap((label) => markers[label]?.mm[2] ?? []);
    return up.reduce((sum, value) => sum + value, 0) / up.length;
  };
  const height = meanUp(bodyAxes.high) - meanUp(bodyAxes.low);
  return Number.isFinite(height) ? height : null;
}

function stepOf({ action, marker, mm, distanceMm, turnDeg, probability, resolves }: Move): StepResult {
  const sideways = mm === undefined ? null : 'outward' in mm ? mm.outward : mm.left;
  return {
    action,
    marker: marker ?? null,
    mm: mm === undefined ? null : [thousandths(mm.forward)!, thousandths(sideways)!, thousandths(mm.up)!],
    distanceMm: thousandths(distanceMm ?? null),
    turnDeg: thousandths(turnDeg ?? null),
    probability: thousandths(probability),
    resolves,
  };
}

function thousandths(value: number | null): number | null {
  return value === null ? null : roundTo(decimals, value);
}
