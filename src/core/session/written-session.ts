import type { Measure } from '../marker-set/measure.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import type { ReasonCode } from './reasons.ts';
import type { AcceptedDeviation, Measurement, PatientFacts, Session } from './session.ts';

/** A session as its file holds it, after validation: whatever was not recorded may be left out. */
export interface WrittenSession {
  readonly subject?: Partial<Session['subject']>;
  readonly visit?: Partial<Session['visit']>;
  readonly measurements?: readonly WrittenMeasurement[];
  readonly facts?: Omit<Partial<PatientFacts>, 'variants'> & {
    readonly variants?: readonly { readonly id: string; readonly side?: Side }[];
  };
  readonly accepted?: readonly (Omit<AcceptedDeviation, 'reason'> & WrittenReason)[];
  readonly confirmed?: readonly WrittenConfirmation[];
  readonly walkingTrials?: readonly string[];
}

export type WrittenMeasurement = Omit<Measurement, 'side' | 'parameter'> & {
  readonly side?: Side;
  readonly repeats?: readonly number[];
};

/** Why, by a code of the short list, in words, or both. */
export interface WrittenReason {
  readonly reasonCode?: ReasonCode;
  readonly reason?: string;
}

/** One of marker, rule and measure. */
export interface WrittenConfirmation extends WrittenReason {
  readonly marker?: string;
  readonly rule?: string;
  readonly measure?: Measure;
  readonly side?: Side;
  readonly by: string;
  readonly on: string;
}
