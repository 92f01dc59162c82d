import type { CheckRow, TrialRow } from '../../src/audit/parts/trial-row.ts';

/** A recording that passed, for tests; what matters is given. */
export function madeRow(given: Partial<TrialRow> = {}): TrialRow {
  const sha256 = given.sha256 ?? 'a'.repeat(64);
  return {
    trial: sha256.slice(0, 8),
    sha256,
    path: null,
    subject: 'P1',
    assessor: 'AK',
    site: 'MR',
    visit_on: '2025-01-01',
    age_years: 30,
    sex: null,
    facts: [],
    has_session: true,
    session_fault: null,
    marker_set: 'our-lab',
    marker_set_version: '1.0.0',
    marker_set_sha256: 'f'.repeat(64),
    norms: null,
    tool: '1.0.0',
    verdict: 'ready',
    rules_total: 2,
    rules_assessed: 2,
    frames: 100,
    rate_hz: 100,
    sway_mm: 1,
    body_height_mm: 830,
    optional_markers: [],
    fault: null,
    copies: 1,
    checks: [],
    steps: [],
    problems: [],
    ...given,
  };
}

/** A construction rule that wants 0 and allows 9 mm. */
export function wandCheck(side: 'right' | 'left', value: number): CheckRow {
  return {
    rule: `thigh-wand-in-line.${side}`,
    side,
    basis: 'construction',
    unit: 'mm',
    status: Math.abs(value) > 9 ? 'fail' : 'pass',
    value,
    expected: 0,
    limit: 9,
    uncertainty: 1,
    residual: value,
  };
}

export function hashOf(number: number): string {
  return number.toString(16).padStart(8, '0').repeat(8);
}
