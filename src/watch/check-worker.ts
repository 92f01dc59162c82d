// A thread of its own, so that whoever looks at the page is answered while a trial is checked.
import { parentPort, workerData } from 'node:worker_threads';
import { checkTrial } from '../core/check-trial.ts';
import { type CheckBytes, checkTrialFile } from '../node/check-trial-file.ts';
import type { CheckedOrder, CheckInputs, CheckOrder } from './check-orders.ts';

const { markerSet, session, norms }: CheckInputs = workerData;
const check: CheckBytes = (bytes, source) => checkTrial(bytes, markerSet, session, source, norms);

parentPort!.on('message', async ({ id, path }: CheckOrder) => {
  const checked: CheckedOrder = { id, report: await checkTrialFile(path, check) };
  parentPort!.postMessage(checked);
});
