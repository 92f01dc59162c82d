import type { Measure, MeasureUnit } from '../marker-set/measure.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';

/** One reading: what was measured, where, on which instrument; value as written, in its own unit. */
export interface Measurement {
  readonly measure: Measure;
  readonly side: Side | null;
  readonly value: number;
  readonly unit: MeasureUnit;
  readonly instrument?: 'scales' | 'stadiometer' | 'pelvimeter' | 'calliper' | 'tape' | 'two-rulers' | 'other';
  readonly posture?: 'standing' | 'supine' | 'sitting';
  /** A leg length taken over the medial epicondyle, as with a knee that does not extend. */
  readonly inTwoParts?: boolean;
  /** Code of who took it, where it is not the assessor of the visit. */
  readonly by?: string;
  /** The C3D parameter that it was read from, where no session file gave it. */
  readonly parameter?: string;
}

/** A finding that the assessor accepts: the rule still shows, with the reason and who gave it. */
export interface AcceptedDeviation {
  readonly rule: string;
  readonly reason: string;
  readonly by: string;
  readonly on: string;
}

/** Who settled something and on which day (`2026-03-02`), and what was found, in words. */
interface Settled {
  readonly by: string;
  readonly on: string;
  readonly reason?: string;
}

/** A palpation that came back: the marker is on its bone, whatever the geometry expects. */
export interface ConfirmedPalpation extends Settled {
  readonly marker: string;
}

/** Every marker that a rule may ask to move was palpated again. */
export interface ConfirmedRule extends Settled {
  readonly rule: string;
}

/** A hand measurement that was taken again and found right, however unlikely it looks. */
export interface ConfirmedReading extends Settled {
  readonly measure: Measure;
  readonly side: Side | null;
}

export interface BySide {
  readonly right: number | null;
  readonly left: number | null;
}

/** What is known of the patient that changes what is expected of the markers. Angles degrees, lengths mm. */
export interface PatientFacts {
  /** Right leg minus left leg, measured. */
  readonly legLengthDifferenceMm: number | null;
  /** Knee axis turned outward from the pelvis's left-right axis, as the assessor saw it. */
  readonly kneeTurnDeg: BySide;
  /** Malleolar axis turned outward from the knee axis. */
  readonly tibialTorsionDeg: BySide;
  /** How far the heel stands off the floor. */
  readonly heelRaiseMm: BySide;
  /** How much higher the shoe's heel is than its sole. */
  readonly heelSoleDifferenceMm: BySide;
  readonly variants: readonly { readonly id: string; readonly side: Side | null }[];
  readonly contractures: readonly {
    readonly joint: 'hip' | 'knee' | 'ankle';
    readonly side: Side;
    readonly angleDeg: number;
  }[];
  readonly block: { readonly side: Side; readonly heightMm: number } | null;
  readonly prosthesis: readonly Side[];
  readonly orthosis: readonly Side[];
  readonly cannotStandStraight: boolean;
  readonly supported: boolean;
}

/** What was recorded beside the trial. Pseudonymous: a code, never a name. */
export interface Session {
  readonly subject: {
    readonly code: string | null;
    readonly ageYears: number | null;
    readonly sex: 'female' | 'male' | null;
  };
  /** Who put the markers on, where, before which capture system and on which day (`2026-03-02`); codes. */
  readonly visit: {
    readonly assessor: string | null;
    readonly site: string | null;
    readonly device: string | null;
    readonly on: string | null;
  };
  readonly measurements: readonly Measurement[];
  readonly facts: PatientFacts;
  readonly accepted: readonly AcceptedDeviation[];
  readonly confirmed: readonly ConfirmedPalpation[];
  readonly confirmedRules: readonly ConfirmedRule[];
  readonly confirmedReadings: readonly ConfirmedReading[];
  /** Names of the walking trials that the static trial serves. */
  readonly walkingTrials: readonly string[];
}

const nothing: BySide = { right: null, left: null };

/** A session in which nothing was recorded. */
export const emptySession: Session = {
  subject: { code: null, ageYears: null, sex: null },
  visit: { assessor: null, site: null, device: null, on: null },
  measurements: [],
  facts: {
    legLengthDifferenceMm: null,
    kneeTurnDeg: nothing,
    tibialTorsionDeg: nothing,
    heelRaiseMm: nothing,
    heelSoleDifferenceMm: nothing,
    variants: [],
    contractures: [],
    block: null,
    prosthesis: [],
    orthosis: [],
    cannotStandStraight: false,
    supported: false,
  },
  accepted: [],
  confirmed: [],
  confirmedRules: [],
  confirmedReadings: [],
  walkingTrials: [],
};
