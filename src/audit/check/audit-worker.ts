// Runs in a thread of the pool (trial-pool.ts), built as a file of its own (scripts/build.js).
import { workerData } from 'node:worker_threads';
import { readTrialFileAtOnce } from '../../node/read-trial-file.ts';
import type { AuditInputs } from './audit-inputs.ts';
import type { AuditAnswer, AuditTask } from './audit-tasks.ts';
import { checkOneTrial } from './check-one-trial.ts';
import { readSessionBeside } from './session-beside.ts';

const inputs: AuditInputs = workerData;

/** Everything in it is done at once: a thread has nothing else to do meanwhile. */
export default function work({ kind, paths }: AuditTask): AuditAnswer[] {
  return paths.map(kind === 'hash' ? hashes : check);
}

function hashes(path: string): AuditAnswer {
  const { sha256: sessionSha256 } = readSessionBeside(path);
  return { sha256: hashOf(path), sessionSha256, result: null };
}

function hashOf(path: string): string | null {
  try {
    return readTrialFileAtOnce(path).sha256;
  } catch {
    return null;
  }
}

function check(path: string): AuditAnswer {
  const { result } = checkOneTrial(path, inputs);
  const { sha256, sessionSha256 } = result;
  return { sha256: sha256 === '' ? null : sha256, sessionSha256, result: JSON.stringify(result) };
}
