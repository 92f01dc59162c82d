import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { readdir, readFile, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { writeOutputAtomically } from '../node/write-output-atomically.ts';
import { type BringOptions, bringUpToDate } from './bring-up-to-date.ts';
import { type AuditInputs, fingerprintOf } from './check/audit-inputs.ts';
import { openTrialPool } from './check/trial-pool.ts';
import type { FoundFiles } from './find/find-trials.ts';
import { fallsTo, type Share } from './find/share-of-files.ts';
import { hasDuckDb } from './parts/duckdb.ts';
import { type PartHeader, partFormat, type RowSource } from './parts/part-file.ts';
import { summarizeSet } from './parts/set-summary.ts';
import type { TrialRow } from './parts/trial-row.ts';
import { writeRows } from './parts/write-rows.ts';
import { rowsOfStore, type StoreRows } from './rows-of-store.ts';
import { openStore } from './store/open-store.ts';
import type { PathPattern } from './trial/path-pattern.ts';

export interface AuditRun extends BringOptions {
  readonly storeFolder: string;
  readonly share: Share;
  readonly threads: number;
  readonly pattern: PathPattern | null;
}

export interface AuditedFiles {
  readonly rows: RowSource;
  /** Where a report of these rows may be kept, and what it hangs on. */
  readonly reportPath: string;
  readonly digest: string;
  /** The part that was written, or was already there and still right. */
  readonly partPath: string;
  readonly isParquet: boolean;
  /** Parts of another split, which told of the same files and were taken away. */
  readonly outdated: readonly string[];
}

/**
 * Audits the files of one share: brings the store up to date, then writes the part. `use` may walk through the rows as
 * often as it likes; the store is closed, and its lock given back, when it is done, also where the audit is stopped.
 */
export async function runAudit<Result>(
  found: FoundFiles,
  inputs: AuditInputs,
  run: AuditRun,
  use: (audited: AuditedFiles) => Promise<Result>,
): Promise<Result> {
  const files = found.files.filter(({ below }) => fallsTo(run.share, below));
  const store = openStore(run.storeFolder, run.share);
  try {
    const pool = openTrialPool(inputs, run.threads);
    const brought = await bringUpToDate(files, inputs, store, pool, run).finally(() => pool.close());
    const sets = inputs.sets.map(({ markerSet }) => summarizeSet(markerSet));
    // A folder that cannot be opened is told by one share alone, so that the sum over the parts is right.
    const unreadFolders = run.share.number === 1 ? found.unread.length : 0;
    const rows = rowsOfStore(files, brought, store, fingerprintOf(inputs), sets, run.pattern, unreadFolders);
    const reportPath = join(run.storeFolder, `share-${run.share.number}-of-${run.share.of}`, 'report.json');
    return await use({ rows, reportPath, digest: rows.digestWithPaths(), ...(await writePart(rows, run)) });
  } finally {
    store.close();
  }
}

/** Writes the part unless the one that is there holds these rows already. Its paths stay out: parts may travel. */
async function writePart(rows: StoreRows, { storeFolder, share }: AuditRun) {
  const partFolder = join(storeFolder, 'parts');
  const stem = join(partFolder, `part-${share.number}-of-${share.of}`);
  const digestPath = join(storeFolder, `share-${share.number}-of-${share.of}`, 'part.sha256');
  const header: PartHeader = { format: partFormat, share, sets: rows.header.sets, unread: rows.header.unread };
  async function* withoutPaths(): AsyncIterable<TrialRow> {
    for await (const row of rows.rows()) yield { ...row, path: null };
  }
  const digest = rows.digest();
  const digestAs = (path: string): string => createHash('sha256').update(`${path}\n${digest}`).digest('hex');
  const before = (await readFile(digestPath, 'utf8').catch(() => '')).trim();
  const isWritten = (path: string): boolean => digestAs(path) === before && existsSync(path);
  // DuckDB takes its time to load, and is not needed where its part is there already.
  const isParquet = isWritten(`${stem}.parquet`) || (await hasDuckDb());
  const partPath = `${stem}.${isParquet ? 'parquet' : 'jsonl'}`;
  if (!isWritten(partPath)) {
    await rm(digestPath, { force: true });
    await rm(`${stem}.${isParquet ? 'jsonl' : 'parquet'}`, { force: true });
    await writeRows(partPath, withoutPaths(), header, dirname(digestPath));
    await writeOutputAtomically(digestPath, `${digestAs(partPath)}\n`);
  }
  const outdated = (await readdir(partFolder)).filter((name) => isOfAnotherSplit(name, share)).sort();
  for (const name of outdated) await rm(join(partFolder, name), { force: true });
  return { partPath, isParquet, outdated };
}

/** Parts of another number of shares tell of the same files: counted beside these, each file would count twice. */
function isOfAnotherSplit(name: string, { of }: Share): boolean {
  const written = /^part-\d+-of-(\d+)\.(?:parquet|jsonl)$/.exec(name);
  return written !== null && Number(written[1]) !== of;
}
