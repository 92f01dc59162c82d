import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runInProcess } from '../cli/run-in-process.ts';
import type { CaseRandom } from './case-random.ts';
import { damagedJson } from './damage-json.ts';
import { hostileTexts } from './hostile-text.ts';
import { judgePrinted, judgeReport } from './judge-output.ts';
import { seedTrials } from './seed-trials.ts';
import { sessionTexts, shippedSets, trialBytes } from './trial-case.ts';

/** A folder for the files of command lines; `remove` it in the end. */
export function commandFolder(): { path: string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), 'setsquare-fuzz-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

const oddArguments = [
  '--frames',
  '1-2',
  '--frames=9-1',
  '--format',
  'html',
  '--session',
  '',
  '--',
  '-x',
  '--debug',
  '--norms',
];

/** One command line over hostile files in this process; throws what is wrong with what it prints or returns. */
export async function tryCommand(folder: string, random: CaseRandom): Promise<number> {
  const file = (name: string, content: string | Uint8Array) => {
    const path = join(folder, name);
    writeFileSync(path, content);
    return path;
  };
  const trials = Array.from({ length: random.pick([1, 1, 1, 2, 3]) }, (_, index) =>
    file(`${index}${fileName(random)}.c3d`, random.chance(0.3) ? random.pick(seedTrials) : trialBytes(random)),
  );
  const command = random.pick(['check', 'check', 'inspect']);
  const format = random.pick(['text', 'json', 'jsonl']);
  const argv = [command, ...trials, '--format', format];
  if (command === 'check') {
    if (random.chance(0.2))
      argv.push('--marker-set', file('set.json', damagedJson(random.pick(shippedSets).setText, random)));
    if (random.chance(0.2))
      argv.push('--session', file('session.json', damagedJson(random.pick(sessionTexts), random)));
    if (random.chance(0.1))
      argv.push('--norms', file('norms.json', damagedJson(random.pick(shippedSets).normsText, random)));
    if (random.chance(0.2)) argv.push('--frames', '1-3');
  }
  const isOdd = random.chance(0.1);
  if (isOdd) argv.splice(random.whole(argv.length), 0, random.pick([...oddArguments, ...hostileTexts]));
  const { code, stdout, stderr } = await runInProcess(argv, { columns: random.pick([20, 80, 200]) });
  for (const trial of trials) rmSync(trial);
  judgePrintout(argv, code, stdout, stderr);
  if (!isOdd && format !== 'text' && stdout !== '') judgeReports(command, format, code, stdout);
  return code;
}

function judgePrintout(argv: readonly string[], code: number, stdout: string, stderr: string): void {
  if (![0, 1, 2].includes(code)) throw new Error(`exit code ${code}`);
  if (/fault of the program/.test(stdout + stderr)) throw new Error(`a fault was caught: ${stderr || stdout}`);
  if (/^\s+at .+:\d+:\d+\)?$/m.test(stderr) && !argv.includes('--debug')) throw new Error('a stack trace was printed');
  judgePrinted(stdout, 'standard output');
  judgePrinted(stderr, 'standard error');
  if (code === 2 && stdout === '' && stderr === '') throw new Error('nothing was said');
}

function judgeReports(command: string, format: string, code: number, stdout: string): void {
  const lines = stdout.trimEnd().split('\n');
  const values = format === 'json' ? [JSON.parse(stdout)].flat() : lines.map((line) => JSON.parse(line));
  if (command !== 'check') return;
  const worst = values.reduce((most: number, report) => Math.max(most, judgeReport(report)), 0);
  if (worst !== code) throw new Error(`exit code ${code} where the reports ask for ${worst}`);
}

/** What a file name can hold and no more. */
function fileName(random: CaseRandom): string {
  return random.chance(0.3)
    ? random
        .pick(hostileTexts)
        .replaceAll(/[/\0\\]/g, '')
        .slice(0, 60)
    : '';
}
