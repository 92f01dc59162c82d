import type { ModelMeasurement } from '../gait-model/model-measurements.ts';
import type { JointAngle } from '../gait-model/standing-angles.ts';
import type { ReadingName, SheetFinding } from '../measurements/sheet-finding.ts';
import type { Move } from '../moves/move.ts';
import type { KeptDeviation } from '../moves/plan-kept.ts';
import type { Problem } from '../problems/problem.ts';
import type { RuleGeometry, Unit } from '../rule-kinds/rule-kind.ts';
import type { NotCompared } from '../sheet-against-trial/sheet-comparison.ts';

export type { Move, MoveAction, MoveProposal, MoveVector } from '../moves/move.ts';
export type { Problem, ProblemCode } from '../problems/problem.ts';

export type Verdict = 'ready' | 'adjust' | 'not-assessable';
export type RuleStatus = 'pass' | 'borderline' | 'fail' | 'accepted' | 'not-assessed';
type Triple = readonly [number, number, number];

export interface ReportedMarker {
  /** Forward, left, up; origin: middle of the ASIS dropped to the floor. */
  readonly mm: Triple;
  /** Sway: standard deviation of the position in the window. */
  readonly sdMm: number;
  /** Share of the frames in the window in which the marker is visible. */
  readonly visible: number;
  /** What it is called at the bedside, after "the patient's left". */
  readonly called: string;
  readonly side: 'right' | 'left' | 'midline';
}

/** What a line figure of this patient is drawn from. Positions in body axes, mm. */
export interface ReportedFigure {
  /** Pairs of markers to join by a line. */
  readonly joins: readonly (readonly [string, string])[];
  readonly segments: readonly {
    readonly name: string;
    readonly side: 'right' | 'left' | 'midline';
    readonly markers: readonly string[];
    /** From the lower to the upper end; null where the marker set gives none, as for a pelvis. */
    readonly longAxis: { readonly from: Triple; readonly to: Triple } | null;
    /** From back to front; a foot has it. */
    readonly forward: { readonly from: Triple; readonly to: Triple } | null;
  }[];
}

/** How a part of the body moved: from where it was in the window, mm; null where none of its markers was seen. */
export interface ReportedSwayCurve {
  readonly markers: readonly string[];
  readonly forwardMm: readonly (number | null)[];
  readonly leftMm: readonly (number | null)[];
}

export interface ReportedSway {
  /** Frames sampled over the whole trial, as the file numbers them; at most 200. */
  readonly frames: readonly number[];
  readonly pelvis: ReportedSwayCurve;
  readonly feet: ReportedSwayCurve;
}

export interface ReportedStance {
  readonly measures: readonly {
    readonly id: string;
    readonly title: string;
    readonly side: 'right' | 'left' | 'both' | 'midline';
    readonly value: number;
    readonly unit: Unit;
    readonly range: readonly [number | null, number | null];
    /** `expected` is out of range with a recorded reason. */
    readonly status: 'pass' | 'borderline' | 'fail' | 'expected';
    /** It rests on a length that was estimated and not measured on the patient. */
    readonly estimated: boolean;
    readonly says: string;
  }[];
  /** Share of the weight on the right foot, where force plates tell. */
  readonly loadShare: number | null;
}

export interface ReportedPlates {
  /** Mass that the plates carry, kg; null unless both feet stand on them. */
  readonly massKg: number | null;
  readonly recordedMassKg: number | null;
  /** Why the stance has no load share; empty where it has. */
  readonly loadShareReason: string;
  readonly each: readonly {
    /** As people count them, from 1. */
    readonly number: number;
    /** 1 to 4; null where the file states none. */
    readonly type: number | null;
    /** Why it could not be used; empty where it could. */
    readonly reason: string;
    /** Feet on it, whole or in part. */
    readonly feet: readonly ('right' | 'left')[];
    /** Mean upward force in the window, newtons. */
    readonly upwardN: number | null;
    /** Centre of pressure: forward, left, up as for the markers; null where too little presses. */
    readonly centreMm: Triple | null;
    /** How far that is outside the foot, where one foot stands whole on the plate; 0 inside. */
    readonly outsideFootMm: number | null;
    /** Whether the readings of the empty plate were taken off. */
    readonly zeroed: boolean;
  }[];
}

export interface ReportedAngles {
  /** Angles of standing; `estimated` where a length they rest on was not measured on the patient. */
  readonly values: readonly (JointAngle & {
    readonly usual: readonly [number, number] | null;
    readonly estimated: boolean;
  })[];
  /** Lengths that the model rests on, and where each comes from. */
  readonly measurements: readonly ModelMeasurement[];
  readonly notComputed: readonly { readonly side: 'right' | 'left'; readonly reason: string }[];
  /** Which of the lengths were estimated, in words; empty where none was. */
  readonly says: string;
}

export interface ReportedRule {
  readonly id: string;
  readonly kind: string;
  readonly title: string;
  readonly basis: 'construction' | 'anatomy';
  readonly essential: boolean;
  readonly side: 'right' | 'left' | 'both' | 'midline';
  readonly markers: readonly string[];
  readonly value: number | null;
  readonly unit: Unit;
  readonly target?: number;
  readonly range?: readonly [number | null, number | null];
  readonly limit: number | null;
  readonly borderline: number | null;
  /** 1 SD of the value: averaging, and what an estimated direction of view adds. */
  readonly uncertainty: number | null;
  readonly status: RuleStatus;
  /** Why it was not assessed, accepted or kept at borderline; empty where there is nothing to add. */
  readonly reason: string;
  /** What the value means, in words; empty where it passes or was not assessed. */
  readonly says: string;
  readonly why: string;
  readonly seen: string;
  readonly source: string;
  readonly geometry: RuleGeometry | null;
}

/** The sheet beside the trial: what was compared, and what could not be. */
export interface ReportedComparisons {
  readonly compared: readonly (ReadingName & {
    readonly title: string;
    readonly readMm: number;
    readonly foretoldMm: number;
    /** Spread of the difference where reading and markers are right, 1 SD. */
    readonly sdMm: number;
    readonly markers: readonly string[];
    readonly agrees: boolean;
  })[];
  readonly notCompared: readonly NotCompared[];
}

export interface Report {
  readonly format: 'setsquare-report/1';
  readonly tool: { readonly version: string };
  readonly verdict: Verdict;
  readonly coverage: {
    readonly rules: number;
    readonly assessed: number;
    readonly essentialNotAssessed: readonly string[];
    /** What no rule sees on this patient although it matters to the data. */
    readonly unseen: readonly { readonly markers: readonly string[]; readonly says: string }[];
  };
  readonly trial: {
    readonly path: string;
    readonly sha256: string;
    readonly frames: number | null;
    readonly rateHz: number | null;
    readonly units: string | null;
    readonly vertical: string | null;
    readonly window: { readonly firstFrame: number; readonly lastFrame: number; readonly swayMm: number } | null;
  };
  readonly subject: { readonly code: string | null };
  readonly markerSet: { readonly name: string; readonly version: string; readonly sha256: string };
  readonly norms: { readonly name: string; readonly version: string; readonly origin: string } | null;
  readonly bodyAxes: { readonly forward: Triple; readonly left: Triple; readonly up: Triple } | null;
  readonly markers: Readonly<Record<string, ReportedMarker>>;
  /** Null where nobody could be made out. */
  readonly figure: ReportedFigure | null;
  readonly sway: ReportedSway | null;
  readonly stance: ReportedStance | null;
  /** Joint angles by the lower-body model; null where the marker set names none. */
  readonly angles: ReportedAngles | null;
  /** What the force plates say; null where the file has none, or nobody stands there. */
  readonly plates: ReportedPlates | null;
  readonly rules: readonly ReportedRule[];
  /** What was found about the hand measurements of the session; empty where none were recorded, or all are well. */
  readonly measurements: readonly SheetFinding[];
  /** Hand measurements beside what the markers foretell; null where nothing was compared. */
  readonly sheetAgainstTrial: ReportedComparisons | null;
  readonly moves: readonly Move[];
  /** Rules that would still fail after every step had been carried out. */
  readonly stillFailing: readonly string[];
  /** Findings that stay as they are, accepted or confirmed by a person, with what that leaves in the data. */
  readonly kept: readonly KeptDeviation[];
  /** Things that no single rule says, such as an offset that both sides share. */
  readonly notes: readonly { readonly code: string; readonly rules: readonly string[]; readonly message: string }[];
  readonly problems: readonly Problem[];
}
