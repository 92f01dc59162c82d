import type { SetSummary } from './set-summary.ts';
import type { TrialRow } from './trial-row.ts';

export const partFormat = 'setsquare-audit-part/1';

/** Stands before the rows: in a JSON Lines part as its first line, in Parquet as file metadata. */
export interface PartHeader {
  readonly format: typeof partFormat;
  readonly sets: readonly SetSummary[];
  /** Folders and sessions that could not be used, as counts: an audit says what it did not see. */
  readonly unread: { readonly folders: number; readonly files: number };
}

/** Rows that can be walked through more than once. */
export interface RowSource {
  readonly header: PartHeader;
  /** Hash of each row, null for a file that could not be read. */
  identities(): AsyncIterable<string | null>;
  rows(): AsyncIterable<TrialRow>;
}
