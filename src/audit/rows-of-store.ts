import { createHash } from 'node:crypto';
import { InputError } from '../node/input-error.ts';
import type { Brought } from './bring-up-to-date.ts';
import type { TrialResult } from './check/trial-result.ts';
import type { FoundFile } from './find/find-trials.ts';
import { makeRow } from './parts/make-row.ts';
import { mergeCopies } from './parts/merge-copies.ts';
import type { RowSource, RowsHeader } from './parts/part-file.ts';
import type { SetSummary } from './parts/set-summary.ts';
import type { TrialRow } from './parts/trial-row.ts';
import type { IndexedFile } from './store/file-index.ts';
import type { AuditStore } from './store/open-store.ts';
import { matchPathPattern, type PathPattern } from './trial/path-pattern.ts';
import { mergeVisits, unknownVisit, type Visit } from './trial/visit.ts';

/** Rows of a store, and a hash of all that decides them: the same hash, the same rows, without reading one. */
export interface StoreRows extends RowSource {
  digest(): string;
  /** The same, and which recording lies at which whole path: what a report that names files hangs on. */
  digestWithPaths(): string;
}

/**
 * The files of a run as rows, one for each recording, in the order of their hashes; those that could not be read come
 * last. Results are read from the store one at a time.
 */
export function rowsOfStore(
  files: readonly FoundFile[],
  brought: Brought,
  store: AuditStore,
  fingerprint: string,
  sets: readonly SetSummary[],
  pattern: PathPattern | null,
  unreadFolders: number,
): StoreRows {
  const setOf = new Map(sets.map((set) => [set.sha256, set]));
  const header: RowsHeader = {
    sets: [...sets].sort((a, b) => (a.sha256 < b.sha256 ? -1 : 1)),
    unread: { folders: unreadFolders, files: brought.unread.size },
    missingParts: [],
  };
  const byRecording = new Map<string, { file: FoundFile; indexed: IndexedFile }[]>();
  for (const file of files) {
    const indexed = brought.indexed.get(file.path);
    if (indexed === undefined) continue;
    const copies = byRecording.get(indexed.sha256) ?? [];
    copies.push({ file, indexed });
    byRecording.set(indexed.sha256, copies);
  }
  const recordings = [...byRecording.keys()].sort();

  const visitOf = (result: TrialResult | null, { below }: FoundFile): Visit =>
    mergeVisits(
      result?.session ?? unknownVisit,
      result?.recorded ?? unknownVisit,
      pattern === null ? unknownVisit : matchPathPattern(pattern, below),
    );
  const rowOf = ({ file, indexed }: { file: FoundFile; indexed: IndexedFile }): TrialRow => {
    const result = store.results.get({ ...indexed, fingerprint });
    if (result === null) {
      throw new InputError(
        `The audit's store holds a damaged result of ${file.path}`,
        'delete the store and run the audit again',
      );
    }
    return makeRow(result, visitOf(result, file), file.path, 1, setOf);
  };

  return {
    header,
    digest() {
      const hash = createHash('sha256').update(JSON.stringify([header, pattern, fingerprint]));
      for (const recording of recordings) {
        const copies = byRecording.get(recording)!;
        hash.update(
          JSON.stringify([recording, copies.map(({ file, indexed }) => [file.below, indexed.sessionSha256])]),
        );
      }
      return hash.update(JSON.stringify([...brought.unread].sort())).digest('hex');
    },
    digestWithPaths() {
      const hash = createHash('sha256').update(this.digest());
      for (const recording of recordings) {
        hash.update(JSON.stringify([recording, byRecording.get(recording)!.map(({ file }) => file.path)]));
      }
      return hash.digest('hex');
    },
    async *identities() {
      yield* recordings;
      for (const _ of brought.unread) yield null;
    },
    async *rows() {
      for (const recording of recordings) {
        const copies = byRecording.get(recording)!.map(rowOf);
        yield copies.length === 1 ? copies[0]! : mergeCopies(copies);
      }
      for (const file of files) {
        const json = brought.unread.get(file.path);
        if (json === undefined) continue;
        const result: TrialResult = json === null ? fallen(sets[0]!) : JSON.parse(json);
        yield makeRow(result, visitOf(result, file), file.path, 1, setOf);
      }
    },
  };
}

/** A trial on which the thread that checked it ended, twice. */
function fallen({ sha256 }: SetSummary): TrialResult {
  return {
    sha256: '',
    sessionSha256: null,
    markerSet: sha256,
    norms: null,
    tool: '',
    verdict: 'not-assessable',
    rulesAssessed: 0,
    frames: null,
    rateHz: null,
    swayMm: null,
    bodyHeightMm: null,
    session: null,
    recorded: unknownVisit,
    optionalMarkers: [],
    checks: [],
    steps: [],
    problems: [{ code: 'file-unreadable', markers: [] }],
    fault: 'The check of this trial ended its thread, twice: report it, with the trial if it may be shared.',
    sessionFault: null,
  };
}
