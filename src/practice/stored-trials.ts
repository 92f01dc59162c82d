import { readSessionBeside } from '../audit/check/session-beside.ts';
import { findTrials } from '../audit/find/find-trials.ts';
import { checkTrial } from '../core/check-trial.ts';
import type { Norms } from '../core/decision/norms.ts';
import type { LoadedMarkerSet } from '../core/marker-set/parse-marker-set.ts';
import { type LeftOut, type PracticeTrial, storedTrial } from '../core/practice/practice-trial.ts';
import { seededDraw } from '../core/practice/seeded-draw.ts';
import { checkTrialFile } from '../node/check-trial-file.ts';

/** So many times the trials of a session are looked for of either sort, so that the weak landmarks can be chosen. */
const timesEach = 2;
/** Trials that are checked at most before a session begins: a trainee waits meanwhile. */
const mostChecked = 80;

export interface StoredTrials {
  readonly trials: readonly PracticeTrial[];
  readonly found: number;
  /** Folders that could not be opened. */
  readonly unreadFolders: number;
  readonly checked: number;
  /** How many of the checked ones are not to be practised on, by why. */
  readonly leftOut: Readonly<Partial<Record<LeftOut, number>>>;
}

/**
 * Trials below a folder to practise on, checked in an order that the seed draws until there are enough of both sorts.
 * @throws {InputError} where the folder cannot be opened
 */
export async function findStoredTrials(
  folder: string,
  { set, norms }: { readonly set: LoadedMarkerSet; readonly norms: Norms | null },
  seed: number,
  count: number,
  signal: AbortSignal,
): Promise<StoredTrials> {
  const { files, unread } = await findTrials([folder], signal);
  const trials = new Map<string, PracticeTrial>();
  const leftOut: Partial<Record<LeftOut, number>> = {};
  let checked = 0;
  for (const { path } of seededDraw(seed).shuffled(files)) {
    if (checked >= mostChecked || isEnough([...trials.values()], count)) break;
    signal.throwIfAborted();
    const { session, fault } = readSessionBeside(path);
    if (fault !== null) {
      // Judged without it the answer might be another one.
      checked += 1;
      leftOut.session = (leftOut.session ?? 0) + 1;
      continue;
    }
    const report = await checkTrialFile(path, (bytes, source) => checkTrial(bytes, set, session, source, norms));
    checked += 1;
    const trial = storedTrial(report);
    if (typeof trial === 'string') leftOut[trial] = (leftOut[trial] ?? 0) + 1;
    else trials.set(trial.id, trial);
  }
  return { trials: [...trials.values()], found: files.length, unreadFolders: unread.length, checked, leftOut };
}

function isEnough(trials: readonly PracticeTrial[], count: number): boolean {
  const clean = trials.filter(({ key }) => key.expected.length === 0).length;
  return clean >= count && trials.length - clean >= timesEach * count;
}
