import { join } from 'node:path';
import { Piscina } from 'piscina';
import { packageRoot } from '../../node/package-root.ts';
import type { AuditInputs } from './audit-inputs.ts';
import type { AuditAnswer, AuditTask } from './audit-tasks.ts';

/** Enough that the way to the thread and back costs little, few enough that Ctrl-C and a crash cost little. */
const pathsPerTask = 8;

export interface TrialPool {
  /**
   * Works through the paths in any order and hands each answer over as it comes. A path on which a thread falls is
   * tried once more alone; if the thread falls again, its answer is null and the others go on.
   */
  run(
    kind: AuditTask['kind'],
    paths: AsyncIterable<string> | Iterable<string>,
    take: (path: string, answer: AuditAnswer | null) => Promise<void>,
    signal: AbortSignal,
  ): Promise<void>;
  close(): Promise<void>;
}

/** Threads that check trials, each with the inputs once. They do not share memory: a crowded one is ended and replaced. */
export function openTrialPool(inputs: AuditInputs, threads: number): TrialPool {
  const pool = new Piscina<AuditTask, AuditAnswer[]>({
    filename: join(packageRoot, 'dist', 'audit-worker.cjs'),
    workerData: inputs,
    minThreads: 1,
    maxThreads: threads,
    resourceLimits: { maxOldGenerationSizeMb: 256, maxYoungGenerationSizeMb: 64 },
  });
  pool.on('error', () => {});

  async function answersFor(task: AuditTask, signal: AbortSignal): Promise<(AuditAnswer | null)[]> {
    try {
      return await pool.run(task, { signal });
    } catch (error) {
      if (signal.aborted) throw error;
      if (task.paths.length === 1) return [null];
      const alone: (AuditAnswer | null)[] = [];
      for (const path of task.paths) alone.push(...(await answersFor({ ...task, paths: [path] }, signal)));
      return alone;
    }
  }

  return {
    async run(kind, paths, take, signal) {
      const running = new Set<Promise<void>>();
      let failure: { readonly error: unknown } | null = null;
      const start = (batch: string[]): void => {
        const done = answersFor({ kind, paths: batch }, signal)
          .then(async (answers) => {
            for (const [index, path] of batch.entries()) await take(path, answers[index]!);
          })
          .catch((error: unknown) => {
            failure ??= { error };
          })
          .finally(() => running.delete(done));
        running.add(done);
      };
      let batch: string[] = [];
      for await (const path of paths) {
        batch.push(path);
        if (batch.length < pathsPerTask) continue;
        start(batch);
        batch = [];
        while (running.size > 2 * threads && failure === null) await Promise.race(running);
        if (failure !== null || signal.aborted) break;
      }
      if (batch.length > 0 && failure === null && !signal.aborted) start(batch);
      await Promise.all(running);
      signal.throwIfAborted();
      if (failure !== null) throw (failure as { readonly error: unknown }).error;
    },
    async close() {
      await pool.destroy();
    },
  };
}
