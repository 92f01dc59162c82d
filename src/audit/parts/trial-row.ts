import type { MoveAction } from '../../core/moves/move.ts';
import type { ProblemCode, RuleStatus, Verdict } from '../../core/report/report.ts';
import type { Unit } from '../../core/rule-kinds/rule-kind.ts';

export type RuleSide = 'right' | 'left' | 'both' | 'midline';

/**
 * One recording as a part and an export hold it (docs/audit-store.md says what each column means). Names are those of
 * columns, since databases read them.
 */
export interface TrialRow {
  /** First 8 digits of the SHA-256. */
  readonly trial: string;
  /** Whole in parts; null in an export without names. */
  readonly sha256: string | null;
  /** Null unless names are to be shown. */
  readonly path: string | null;
  readonly subject: string | null;
  readonly assessor: string | null;
  readonly site: string | null;
  readonly visit_on: string | null;
  readonly age_years: number | null;
  readonly sex: 'female' | 'male' | null;
  readonly facts: readonly string[];
  readonly has_session: boolean;
  readonly session_fault: string | null;
  readonly marker_set: string;
  readonly marker_set_version: string;
  readonly marker_set_sha256: string;
  readonly norms: string | null;
  readonly tool: string;
  readonly verdict: Verdict;
  readonly rules_total: number;
  readonly rules_assessed: number;
  readonly frames: number | null;
  readonly rate_hz: number | null;
  readonly sway_mm: number | null;
  /** Height of the pelvis above the feet. */
  readonly body_height_mm: number | null;
  readonly optional_markers: readonly string[];
  readonly fault: string | null;
  /** Files that hold this recording, byte for byte. */
  readonly copies: number;
  readonly checks: readonly CheckRow[];
  readonly steps: readonly StepRow[];
  readonly problems: readonly { readonly code: ProblemCode; readonly markers: readonly string[] }[];
}

export interface CheckRow {
  readonly rule: string;
  readonly side: RuleSide;
  readonly basis: 'construction' | 'anatomy';
  readonly unit: Unit;
  readonly status: RuleStatus;
  readonly value: number | null;
  /** What the protocol wants; null where a range is allowed. */
  readonly expected: number | null;
  /** Allowed |value - expected|, or half the range. */
  readonly limit: number | null;
  readonly uncertainty: number | null;
  /** Value minus the reference of its limits; null where it was not judged, or not along a measured direction. */
  readonly residual: number | null;
}

export interface StepRow {
  readonly action: MoveAction;
  readonly marker: string | null;
  readonly forward_mm: number | null;
  /** Away from the midline; on the midline: left. */
  readonly outward_mm: number | null;
  readonly up_mm: number | null;
  readonly distance_mm: number | null;
  readonly turn_deg: number | null;
  readonly probability: number | null;
  readonly resolves: readonly string[];
}
