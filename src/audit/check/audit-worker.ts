// Runs in a thread of the pool (trial-pool.ts), built as a file of its own (scripts/build.js).
import { workerData } from 'node:worker_threads';
import { readTrialFile } from '../../node/read-trial-file.ts';
import type { AuditInputs } from './audit-inputs.ts';
import type { AuditAnswer, AuditTask } from './audit-tasks.ts';
import { checkOneTrial } from './check-one-trial.ts';
import { readSessionBeside } from './session-beside.ts';

const inputs: AuditInputs = workerData;

export default async function work({ kind, paths }: AuditTask): Promise<AuditAnswer[]> {
  const answers: AuditAnswer[] = [];
  for (const path of paths) answers.push(await (kind === 'hash' ? hashes(path) : check(path)));
  return answers;
}

async function hashes(path: string): Promise<AuditAnswer> {
  const { sha256: sessionSha256 } = readSessionBeside(path);
  const file = await readTrialFile(path).catch(() => null);
  return { sha256: file?.sha256 ?? null, sessionSha256, result: null };
}

async function check(path: string): Promise<AuditAnswer> {
  const { result } = await checkOneTrial(path, inputs);
  const { sha256, sessionSha256 } = result;
  return { sha256: sha256 === '' ? null : sha256, sessionSha256, result: JSON.stringify(result) };
}
