import type { Measurement, PatientFacts, Session } from './session.ts';

/** A session as its file holds it, after validation: whatever was not recorded may be left out. */
export interface WrittenSession {
  readonly subject?: Partial<Session['subject']>;
  readonly measurements?: readonly (Omit<Measurement, 'side'> & { readonly side?: 'right' | 'left' })[];
  readonly facts?: Omit<Partial<PatientFacts>, 'variants'> & {
    readonly variants?: readonly { readonly id: string; readonly side?: 'right' | 'left' }[];
  };
  readonly accepted?: Session['accepted'];
  readonly confirmed?: Session['confirmed'];
}
