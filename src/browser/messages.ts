import type { ToldRepeat } from '../core/practice/repeat-rows.ts';
import type { WrittenVerdict } from '../core/practice/score-verdict.ts';
import type { ShownTrial, ToldTrial } from '../core/practice/shown-trial.ts';
import type { WantedSignOff } from '../core/practice/sign-off-lines.ts';
import type { TraineeRecord } from '../core/practice/trainee-record.ts';
import type { Report } from '../core/report/report.ts';
import type { LimitShares } from './change-limits.ts';

/** A trial to check, and against what. Texts are files that were dropped, read in the worker. */
export interface CheckOrder {
  readonly number: number;
  readonly path: string;
  readonly bytes: Uint8Array;
  /** Name of a marker set that ships, or the text of one that was dropped. */
  readonly markerSet: NamedMarkerSet;
  readonly session: string | null;
  /** Limits of the teaching view; null in a check that counts. */
  readonly limits: LimitShares | null;
}

export type NamedMarkerSet = { readonly name: string } | { readonly text: string };

/** A practice session to begin in the worker. */
export interface BeginOrder {
  readonly begin: {
    /** Trials that were dropped, each with the text of its session; null for made ones. */
    readonly files: readonly { readonly bytes: Uint8Array; readonly session: string | null }[] | null;
    readonly markerSet: NamedMarkerSet;
    readonly seed: number;
    readonly trials: number;
    readonly trainee: string;
    /** Lines of a history that was loaded. */
    readonly history: string;
    readonly at: string;
  };
}

export interface VerdictOrder {
  readonly verdict: { readonly written: WrittenVerdict; readonly at: string };
}

/** What a history holds of a trainee. */
export interface RecordOrder {
  readonly record: {
    readonly markerSet: NamedMarkerSet;
    readonly history: string;
    readonly trainee: string;
    readonly asOf: string;
  };
}

export interface SignOffOrder {
  readonly signOff: {
    readonly markerSet: NamedMarkerSet;
    readonly history: string;
    readonly wanted: WantedSignOff;
  };
}

/** Trials of one subject who was marked anew each time. */
export interface RepeatOrder {
  readonly repeat: {
    readonly markerSet: NamedMarkerSet;
    readonly files: readonly { readonly name: string; readonly bytes: Uint8Array }[];
    readonly trainee: string;
    readonly at: string;
  };
}

export type PracticeOrder = BeginOrder | VerdictOrder | RecordOrder | SignOffOrder | RepeatOrder;

/** What the worker answers to these; `lines` go into the history. */
export type PracticeAnswer =
  | { readonly shown: ShownTrial; readonly leftOut: number }
  | { readonly told: ToldTrial; readonly lines: readonly string[] }
  | { readonly record: TraineeRecord }
  | { readonly signed: readonly string[] }
  | { readonly repeated: ToldRepeat; readonly lines: readonly string[] }
  | { readonly failed: string };

export type CheckAnswer = { readonly number: number } & (
  | { readonly report: Report }
  | { readonly refused: 'marker-set' | 'session' | 'check'; readonly message: string }
);

/** What the build puts beside the page: marker sets that ship, spelt out, each with its norms. */
export interface ShippedFile {
  readonly sets: readonly { readonly set: unknown; readonly norms: unknown }[];
  /** Where the markers of the reference adult stand, by label. */
  readonly adult: Readonly<Record<string, readonly [number, number, number]>>;
}
