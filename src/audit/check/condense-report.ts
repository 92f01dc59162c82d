import type { MarkerSet } from '../../core/marker-set/marker-set.ts';
import type { Move } from '../../core/moves/move.ts';
import type { Report, ReportedRule } from '../../core/report/report.ts';
import { roundTo } from '../../core/report/rounding.ts';
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
    optionalMarkers: set.markers
      .filter(({ label, presence }) => presence !== 'required' && report.markers[label] !== undefined)
      .map(({ label }) => label),
    checks: report.rules.map(checkOf),
    steps: report.moves.map(stepOf),
    problems: report.problems.map(({ code, markers }) => ({ code, markers })),
    fault: unreadable?.message ?? null,
  };
}

function checkOf({ status, value, target, limit, uncertainty }: ReportedRule): CheckResult {
  return [status, thousandths(value), thousandths(target ?? null), thousandths(limit), thousandths(uncertainty)];
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
