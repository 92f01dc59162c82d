import type { Side } from '../rule-kinds/rule-kind.ts';

/** One reading with its hand: what was measured, where, by which instrument; value as written, in its own unit. */
export interface Measurement {
  readonly measure: string;
  readonly side: Side | null;
  readonly value: number;
  readonly unit: 'mm' | 'cm' | 'm' | 'in' | 'kg' | 'lb';
}

/** A finding that the assessor accepts: the rule still shows, with the reason and who gave it. */
export interface AcceptedDeviation {
  readonly rule: string;
  readonly reason: string;
  readonly by: string;
  readonly on: string;
}

/** A palpation that came back: the marker is on its bone, whatever the geometry expects. */
export interface ConfirmedPalpation {
  readonly marker: string;
  readonly by: string;
  readonly on: string;
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
  readonly measurements: readonly Measurement[];
  readonly facts: PatientFacts;
  readonly accepted: readonly AcceptedDeviation[];
  readonly confirmed: readonly ConfirmedPalpation[];
}

const nothing: BySide = { right: null, left: null };

/** A session in which nothing was recorded. */
export const emptySession: Session = {
  subject: { code: null, ageYears: null, sex: null },
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
};
