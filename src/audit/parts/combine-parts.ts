import { mergeCopies } from './merge-copies.ts';
import type { PartSource, RowSource, RowsHeader } from './part-file.ts';
import { missingShares } from './splits.ts';
import type { TrialRow } from './trial-row.ts';

/** Several parts as one: a recording that lies in two of them is one row. Rows that stand alone are not held. */
export function combineParts(parts: readonly PartSource[]): RowSource {
  const sets = new Map(parts.flatMap(({ header }) => header.sets).map((set) => [set.sha256, set]));
  const sum = (count: 'folders' | 'files') => parts.reduce((total, { header }) => total + header.unread[count], 0);
  const header: RowsHeader = {
    sets: [...sets.values()].sort((a, b) => (a.sha256 < b.sha256 ? -1 : 1)),
    unread: { folders: sum('folders'), files: sum('files') },
    missingParts: missingShares(parts.map((part) => part.header.share)),
  };

  async function* identities(): AsyncIterable<string | null> {
    for (const part of parts) yield* part.identities();
  }
  async function* rows(): AsyncIterable<TrialRow> {
    const seen = new Map<string, number>();
    for await (const sha256 of identities()) if (sha256 !== null) seen.set(sha256, (seen.get(sha256) ?? 0) + 1);
    const held = new Map<string, TrialRow[]>();
    for (const part of parts) {
      for await (const row of part.rows()) {
        if (row.sha256 === null || seen.get(row.sha256) === 1) {
          yield row;
          continue;
        }
        const copies = [...(held.get(row.sha256) ?? []), row];
        held.set(row.sha256, copies);
        if (copies.length === seen.get(row.sha256)) yield mergeCopies(copies);
      }
    }
  }
  return { header, identities, rows };
}
