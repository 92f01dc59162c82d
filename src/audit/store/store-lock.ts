import { closeSync, openSync, readFileSync, rmSync, writeSync } from 'node:fs';
import { hostname } from 'node:os';
import { describeSystemError } from '../../node/describe-system-error.ts';
import { InputError } from '../../node/input-error.ts';

/**
 * Keeps a second audit out of a store while one writes to it. The lock of a process that was killed is taken over; one
 * of another machine is not, as nobody here can tell whether it still runs.
 * @returns what gives it back
 * @throws {InputError} where another audit holds it
 */
export function lockStore(path: string): () => void {
  for (let attempt = 0; ; attempt++) {
    try {
      const descriptor = openSync(path, 'wx', 0o600);
      writeSync(descriptor, JSON.stringify({ pid: process.pid, host: hostname() }));
      closeSync(descriptor);
      return () => rmSync(path, { force: true });
    } catch (error) {
      const isTaken = error instanceof Error && 'code' in error && error.code === 'EEXIST';
      if (!isTaken) throw describeSystemError(`Cannot use the audit's store at ${path}`, error);
      if (attempt > 0 || !isLeftBehind(path)) {
        throw new InputError(
          `Another audit is writing to this store (its lock is ${path})`,
          'wait for it, or delete the lock if no audit runs on any machine',
        );
      }
      rmSync(path, { force: true });
    }
  }
}

/** Whether the process that wrote the lock is gone. One that was killed while writing it left it empty. */
function isLeftBehind(path: string): boolean {
  try {
    const text = readFileSync(path, 'utf8');
    if (text === '') return true;
    const { pid, host } = JSON.parse(text);
    if (host !== hostname() || pid === process.pid) return false;
    process.kill(pid, 0);
    return false;
  } catch (error) {
    return error instanceof SyntaxError || (error instanceof Error && 'code' in error && error.code === 'ESRCH');
  }
}
