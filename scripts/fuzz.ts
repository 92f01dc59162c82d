// Hostile files by the thousand: npm run fuzz -- --cases 100000 --seed 7 [--kind file|trial|written|command] [--only NUMBER]
// The cases run in a worker; this thread notices when one of them does not come to an end.
import { parseArgs } from 'node:util';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { commandFolder } from '../tests/fuzz/command-case.ts';
import { type Kind, kinds, limits, runCase } from '../tests/fuzz/run-cases.ts';

interface Job {
  readonly kind: Kind;
  readonly seed: number;
  readonly first: number;
  readonly last: number;
  /** number of the case at work, for the watching thread */
  readonly at: Int32Array;
}

const heapMb = 512;
/** Findings that read alike but for their numbers are told once. */
const mostFindings = 20;

if (isMainThread) await watch();
else await work(workerData as Job);

async function watch(): Promise<void> {
  const { values } = parseArgs({
    options: {
      cases: { type: 'string', default: '10000' },
      seed: { type: 'string', default: '1' },
      kind: { type: 'string', default: 'trial' },
      only: { type: 'string' },
    },
  });
  const kind = kinds.find((known) => known === values.kind);
  const [seed, cases, only] = [values.seed, values.cases, values.only ?? '0'].map(Number);
  if (kind === undefined || ![seed, cases, only].every(Number.isSafeInteger)) {
    throw new Error(`expected whole numbers and one of the kinds ${kinds.join(', ')}`);
  }
  const first = values.only === undefined ? 0 : only!;
  const last = values.only === undefined ? cases! - 1 : only!;
  const at = new Int32Array(new SharedArrayBuffer(4));
  const job: Job = { kind, seed: seed!, first, last, at };
  // A worker does not inherit what makes TypeScript run: it is given that first.
  const entry = `import(${JSON.stringify(import.meta.resolve('tsx/esm/api'))}).then(({ register }) => {
    register();
    return import(${JSON.stringify(import.meta.url)});
  });`;
  const worker = new Worker(entry, {
    eval: true,
    workerData: job,
    resourceLimits: { maxOldGenerationSizeMb: heapMb },
  });
  let seen = -1;
  let since = performance.now();
  const dog = setInterval(() => {
    const now = Atomics.load(at, 0);
    if (now !== seen) [seen, since] = [now, performance.now()];
    else if (performance.now() - since > 10 * limits.slowestMs) {
      console.error(`case ${now} does not end: --kind ${kind} --seed ${seed} --only ${now}`);
      process.exitCode = 1;
      void worker.terminate();
    }
  }, 500);
  worker.on('message', (line: string) => console.log(line));
  worker.on('error', (error) => {
    console.error(`case ${Atomics.load(at, 0)} ended the worker:`, error);
    process.exitCode = 1;
  });
  worker.on('exit', (code) => {
    clearInterval(dog);
    process.exitCode ||= code;
  });
}

async function work({ kind, seed, first, last, at }: Job): Promise<void> {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  const say = (line: string) => parentPort!.postMessage(line);
  const folder = commandFolder();
  const outcomes = new Map<string, number>();
  const heapsMb: number[] = [];
  const findings = new Map<string, number>();
  let slowestMs = 0;
  const started = performance.now();
  for (let number = first; number <= last && findings.size < mostFindings; number++) {
    Atomics.store(at, 0, number);
    const before = performance.now();
    try {
      const outcome = await runCase(kind, seed, number, folder.path);
      outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
      slowestMs = Math.max(slowestMs, performance.now() - before);
    } catch (error) {
      const alike = String(error).replace(/\d+/g, '#');
      findings.set(alike, (findings.get(alike) ?? 0) + 1);
      if (findings.get(alike) !== 1) continue;
      const told = error instanceof Error ? error.stack?.split('\n').slice(0, 6).join('\n') : String(error);
      say(`FOUND --kind ${kind} --seed ${seed} --only ${number}\n${told}`);
    }
    if ((number - first) % 50_000 === 5_000 || number === last) {
      collect();
      heapsMb.push(Math.round(process.memoryUsage().heapUsed / 1e6));
      const seconds = Math.round((performance.now() - started) / 1000);
      const counts = [...outcomes].map(([outcome, count]) => `${outcome} ${count}`).join(', ');
      say(
        `${number - first + 1} cases, ${seconds} s, slowest ${Math.round(slowestMs)} ms, heap ${heapsMb.at(-1)} MB: ${counts}`,
      );
    }
  }
  folder.remove();
  for (const [finding, count] of findings) say(`${count} times: ${finding}`);
  if (findings.size > 0) process.exit(1);
}
