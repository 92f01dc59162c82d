import type { TrialResult } from '../check/trial-result.ts';
import type { Visit } from '../trial/visit.ts';
import type { SetSummary } from './set-summary.ts';
import type { TrialRow } from './trial-row.ts';

/** A result as a row, with who, when and where. @param sets by their hash */
export function makeRow(
  result: TrialResult,
  visit: Visit,
  path: string,
  copies: number,
  sets: ReadonlyMap<string, SetSummary>,
): TrialRow {
  const set = sets.get(result.markerSet)!;
  return {
    trial: result.sha256 === '' ? 'unread' : result.sha256.slice(0, 8),
    sha256: result.sha256 === '' ? null : result.sha256,
    path,
    subject: visit.subject,
    assessor: visit.assessor,
    site: visit.site,
    visit_on: visit.on,
    age_years: result.session?.ageYears ?? null,
    sex: result.session?.sex ?? null,
    facts: result.session?.facts ?? [],
    has_session: result.session !== null,
    session_fault: result.sessionFault,
    marker_set: set.name,
    marker_set_version: set.version,
    marker_set_sha256: set.sha256,
    norms: result.norms,
    tool: result.tool,
    verdict: result.verdict,
    rules_total: result.checks.length,
    rules_assessed: result.rulesAssessed,
    frames: result.frames,
    rate_hz: result.rateHz,
    sway_mm: result.swayMm,
    body_height_mm: result.bodyHeightMm,
    optional_markers: result.optionalMarkers,
    fault: result.fault,
    copies,
    checks:
      result.fault === null
        ? result.checks.map(([status, value, expected, limit, uncertainty, residual], index) => {
            const { id, side, basis, unit } = set.rules[index]!;
            return { rule: id, side, basis, unit, status, value, expected, limit, uncertainty, residual };
          })
        : [],
    steps: result.steps.map(({ action, marker, mm, distanceMm, turnDeg, probability, resolves }) => ({
      action,
      marker,
      forward_mm: mm?.[0] ?? null,
      outward_mm: mm?.[1] ?? null,
      up_mm: mm?.[2] ?? null,
      distance_mm: distanceMm,
      turn_deg: turnDeg,
      probability,
      resolves,
    })),
    problems: result.problems,
  };
}
