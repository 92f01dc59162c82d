import type { RowSource } from './part-file.ts';
import type { TrialRow } from './trial-row.ts';

/** Rows as an export shows them: the path and the whole hash only where names are to be shown. */
export async function* forExport({ rows }: Pick<RowSource, 'rows'>, showNames: boolean): AsyncIterable<TrialRow> {
  for await (const row of rows()) yield showNames ? row : { ...row, path: null, sha256: null };
}
