import type { CheckAnswer } from './messages.ts';

export interface TrialFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface TextFile {
  readonly name: string;
  readonly text: string;
}

/** What the page holds: the last of each kind that was dropped or chosen. */
export interface PageState {
  readonly trial: TrialFile | null;
  /** By name where it ships; `text` where it was dropped. */
  readonly markerSet: { readonly name: string; readonly text: string | null };
  readonly session: TextFile | null;
  /** Of the trial against what is set; null while there is none. */
  readonly answer: CheckAnswer | null;
  /** The answer was given with other limits than the laboratory's. */
  readonly isChanged: boolean;
  /** Sentences about files that could not be taken. */
  readonly faults: readonly string[];
}

/** Marker sets that the build puts beside the page. */
export const shippedSets = ['lower-limb-wands-22', 'lower-limb-medial-20'] as const;

export const emptyState: PageState = {
  trial: null,
  markerSet: { name: shippedSets[0], text: null },
  session: null,
  answer: null,
  isChanged: false,
  faults: [],
};
