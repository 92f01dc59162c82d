import type { MoveAction } from '../../core/moves/move.ts';
import type { ProblemCode, RuleStatus, Verdict } from '../../core/report/report.ts';
import type { Visit } from '../trial/visit.ts';

/** What the check of one trial gave, as the store keeps it: figures rounded to a thousandth. */
export interface TrialResult {
  /** SHA-256 of the file and of the session beside it; null for no session. */
  readonly sha256: string;
  readonly sessionSha256: string | null;
  /** SHA-256 of the marker set; its name and rules are kept once, beside the results. */
  readonly markerSet: string;
  readonly norms: string | null;
  readonly tool: string;
  readonly verdict: Verdict;
  readonly rulesAssessed: number;
  readonly frames: number | null;
  readonly rateHz: number | null;
  readonly swayMm: number | null;
  /** Height of the pelvis above the feet, which figures in mm scale with; null where nobody stands. */
  readonly bodyHeightMm: number | null;
  /** What the session and the C3D file say of who, when and where. */
  readonly session: SessionSaid | null;
  readonly recorded: Visit;
  /** Optional markers that were on, such as medial ones. */
  readonly optionalMarkers: readonly string[];
  /** One for each rule of the set, in its order. */
  readonly checks: readonly CheckResult[];
  readonly steps: readonly StepResult[];
  readonly problems: readonly { readonly code: ProblemCode; readonly markers: readonly string[] }[];
  /** Why the file, or the session beside it, could not be used; null where it could. */
  readonly fault: string | null;
  readonly sessionFault: string | null;
}

export interface SessionSaid extends Visit {
  readonly ageYears: number | null;
  readonly sex: 'female' | 'male' | null;
  /** Recorded facts by name, such as `contracture.knee`. */
  readonly facts: readonly string[];
}

/** Status, value, what was expected (null for a range), limit, uncertainty (1 SD), residual. */
export type CheckResult = readonly [
  status: RuleStatus,
  value: number | null,
  expected: number | null,
  limit: number | null,
  uncertainty: number | null,
  /** Value minus the reference of its limits, as norms have it; null where a direction of view was not measured. */
  residual: number | null,
];

/** One step of the plan, without its words. */
export interface StepResult {
  readonly action: MoveAction;
  readonly marker: string | null;
  /** Forward, outward (on the midline: left), up, from where the marker is to where it is expected. */
  readonly mm: readonly [number, number, number] | null;
  readonly distanceMm: number | null;
  readonly turnDeg: number | null;
  readonly probability: number | null;
  readonly resolves: readonly string[];
}
