import type { RowSource } from './part-file.ts';
import type { TrialRow } from './trial-row.ts';

/** Rows as an export shows them: the path and the whole hash only where names are to be shown. */
export function forExport({ header, rows }: Pick<RowSource, 'header' | 'rows'>, showNames: boolean) {
  async function* shown(): AsyncIterable<TrialRow> {
    for await (const row of rows()) yield showNames ? row : { ...row, path: null, sha256: null };
  }
  return { header, rows: shown };
}
