import type { Report } from '../core/report/report.ts';
import type { LimitShares } from './change-limits.ts';

/** A trial to check, and against what. Texts are files that were dropped, read in the worker. */
export interface CheckOrder {
  readonly number: number;
  readonly path: string;
  readonly bytes: Uint8Array;
  /** Name of a marker set that ships, or the text of one that was dropped. */
  readonly markerSet: { readonly name: string } | { readonly text: string };
  readonly session: string | null;
  /** Limits of the teaching view; null in a check that counts. */
  readonly limits: LimitShares | null;
}

export type CheckAnswer = { readonly number: number } & (
  | { readonly report: Report }
  | { readonly refused: 'marker-set' | 'session' | 'check'; readonly message: string }
);

/** What the build puts beside the page: marker sets that ship, spelt out, each with its norms. */
export interface ShippedFile {
  readonly sets: readonly { readonly set: unknown; readonly norms: unknown }[];
}
