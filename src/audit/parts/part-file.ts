import type { Share } from '../find/share-of-files.ts';
import type { SetSummary } from './set-summary.ts';
import type { TrialRow } from './trial-row.ts';

export const partFormat = 'setsquare-audit-part/1';

/** What rows are told with, and what is not among them: an audit says what it did not see. */
export interface RowsHeader {
  readonly sets: readonly SetSummary[];
  /** Folders that could not be opened and files that could not be read, as counts. */
  readonly unread: { readonly folders: number; readonly files: number };
  /** Shares of which there is no part, such as "3 of 8". */
  readonly missingParts: readonly string[];
}

/** Stands before the rows: in a JSON Lines part as its first line, in Parquet as file metadata. */
export interface PartHeader extends Pick<RowsHeader, 'sets' | 'unread'> {
  readonly format: typeof partFormat;
  /** Which share of the files this part tells of. */
  readonly share: Share;
}

interface Rows {
  /** Hash of each row, null for a file that could not be read. */
  identities(): AsyncIterable<string | null>;
  rows(): AsyncIterable<TrialRow>;
}

/** Rows that can be walked through more than once. */
export interface RowSource extends Rows {
  readonly header: RowsHeader;
}

/** One part that was opened. */
export interface PartSource extends Rows {
  readonly header: PartHeader;
}
