import { getHeapStatistics } from 'node:v8';
import { type CaseRandom, caseRandom } from './case-random.ts';
import { tryCommand } from './command-case.ts';
import { countAllocation } from './count-allocation.ts';
import { trialBytes, tryFile, tryOnDisk, tryTrial } from './trial-case.ts';
import { tryWrittenFiles } from './written-case.ts';

export const kinds = ['file', 'trial', 'written', 'command'] as const;
/** A C3D file read and inspected; the same checked and printed; marker sets, sessions and norms; whole command lines. */
export type Kind = (typeof kinds)[number];

export interface CaseLimits {
  /** a case that takes longer counts as a hang. */
  readonly slowestMs: number;
  /** bytes that one case may leave on the heap. */
  readonly heapBytes: number;
}

export const limits: CaseLimits = { slowestMs: 2000, heapBytes: 128e6 };

/**
 * Typed arrays that one trial may make, whatever the file says: the decoded points (twice the file) a few times over,
 * and the sums of as many points as a header can claim.
 */
export const allowedBytes = (fileBytes: number) => 16e6 + 16 * fileBytes;

/** Runs one case and throws what is wrong. Returns in a word what became of it. */
export async function runCase(kind: Kind, seed: number, number: number, folder: string): Promise<string> {
  const random = caseRandom(seed, number);
  const started = performance.now();
  const heapBefore = getHeapStatistics().used_heap_size;
  const outcome = await outcomeOf(kind, random, folder, number);
  const tookMs = performance.now() - started;
  if (tookMs > limits.slowestMs) throw new Error(`the case took ${Math.round(tookMs)} ms`);
  const grown = getHeapStatistics().used_heap_size - heapBefore;
  if (grown > limits.heapBytes) throw new Error(`the heap grew by ${Math.round(grown / 1e6)} MB`);
  return outcome;
}

async function outcomeOf(kind: Kind, random: CaseRandom, folder: string, number: number): Promise<string> {
  if (kind === 'written') return tryWrittenFiles(random);
  if (kind === 'command') return `exit ${await tryCommand(folder, random)}`;
  const bytes = trialBytes(random);
  const attempt = () => (kind === 'file' ? tryFile(bytes) : tryTrial(bytes, random));
  if (kind === 'file' && number % 64 === 1) tryOnDisk(bytes, folder);
  // Counting slows the typed arrays down for everybody, so that one case in eight has to do.
  if (number % 8 !== 0) return attempt();
  const allocated = countAllocation();
  try {
    const outcome = attempt();
    if (allocated.bytes > allowedBytes(bytes.length)) {
      throw new Error(`${allocated.bytes} bytes of arrays for a file of ${bytes.length}`);
    }
    return outcome;
  } finally {
    allocated.restore();
  }
}
