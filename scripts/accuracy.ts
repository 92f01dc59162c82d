// How often the findings are right, on people that the norms were not made on (tests/accuracy).
//
//   npm run accuracy                               a quick look, 1 to 3 minutes
//   npm run accuracy -- --seed 11 --full --write   5 minutes on two quiet cores
//   npm run accuracy -- --write --again            the page anew, from what was measured last
//
// `--write` keeps what was found in tests/accuracy/measured.json, puts the tables into docs/accuracy.md between its markers,
// and draws the pictures beside it. Seed 1 was for development; the page has another, so that nothing was fitted to it.
import { fork } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { parseMarkerSet } from '../src/core/marker-set/parse-marker-set.ts';
import { directionsOf } from '../tests/accuracy/faults.ts';
import { hands } from '../tests/accuracy/hands.ts';
import type { Part, PartOutcome } from '../tests/accuracy/measure-part.ts';
import { summarise } from '../tests/accuracy/summary.ts';
import { accuracyPage, type Measured } from './accuracy-page.ts';
import { accuracyPictures } from './draw-accuracy.ts';

const { values: flags } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    again: { type: 'boolean', default: false },
    full: { type: 'boolean', default: false },
    processes: { type: 'string', default: String(Math.min(2, availableParallelism())) },
    write: { type: 'boolean', default: false },
  },
});
const seed = Number(flags.seed);
const populations = flags.full ? 8 : 4;
const size = flags.full
  ? { people: 260, perDirection: [13, 4, 4], forOracle: 2500 }
  : { people: 100, perDirection: [5, 2, 2], forOracle: 1200 };
const parts = hands.flatMap((_, hand) =>
  Array.from(
    { length: populations },
    (_, population): Part => ({ seed, population, hand, ...size, perDirection: size.perDirection[hand]! }),
  ),
);

const markerSet = new URL('../shared/marker-sets/lower-limb-wands-22.json', import.meta.url);
const shippedNorms = new URL('../shared/norms/lower-limb-wands-22.json', import.meta.url);
const kept = new URL('../tests/accuracy/measured.json', import.meta.url);
const directions = directionsOf(parseMarkerSet(readFileSync(markerSet, 'utf8'), '0'.repeat(64)));
const measured: Measured = flags.again ? JSON.parse(readFileSync(kept, 'utf8')) : await measure();
const tables = accuracyPage(measured, directions);
process.stdout.write(`${tables}\n`);
if (flags.write) write(measured);

async function measure(): Promise<Measured> {
  const outcomes = await measureAll(parts, Number(flags.processes));
  return {
    run: { seed, populations, ...size, markerSet: hashOf(markerSet), norms: hashOf(shippedNorms) },
    summary: summarise(outcomes, directions),
  };
}

function hashOf(file: URL): string {
  return createHash('sha256').update(readFileSync(file)).digest('hex').slice(0, 8);
}

/** Hands the parts to so many processes; the order of the outcomes is that of the parts, whichever is done first. */
async function measureAll(all: readonly Part[], processes: number): Promise<PartOutcome[]> {
  const found: PartOutcome[] = [];
  let next = 0;
  let done = 0;
  const runProcess = (): Promise<void> =>
    new Promise((resolve, reject) => {
      const worker = fork(fileURLToPath(new URL('accuracy-worker.ts', import.meta.url)), {
        execArgv: ['--import', 'tsx'],
        serialization: 'advanced',
      });
      let own = -1;
      const hand = (): void => {
        if (next >= all.length) {
          worker.disconnect();
          resolve();
          return;
        }
        own = next;
        next += 1;
        worker.send(all[own]!);
      };
      worker.on('error', reject);
      worker.on('exit', (code) => code !== 0 && reject(new Error('A process that measures ended early.')));
      worker.on('message', (outcome: PartOutcome) => {
        found[own] = outcome;
        done += 1;
        process.stderr.write(`${done} of ${all.length} parts measured\n`);
        hand();
      });
      hand();
    });
  await Promise.all(Array.from({ length: processes }, runProcess));
  return found;
}

function write(found: Measured): void {
  const docs = new URL('../docs/', import.meta.url);
  const page = new URL('accuracy.md', docs);
  const marked = /<!-- accuracy -->[\s\S]*<!-- end of accuracy -->/;
  const text = readFileSync(page, 'utf8');
  if (!marked.test(text)) throw new Error('docs/accuracy.md has no place for the tables.');
  writeFileSync(kept, `${JSON.stringify(found)}\n`);
  writeFileSync(
    page,
    text.replace(marked, () => `<!-- accuracy -->\n\n${tables}\n\n<!-- end of accuracy -->`),
  );
  for (const [name, picture] of Object.entries(accuracyPictures(found.summary, directions))) {
    writeFileSync(new URL(name, docs), picture);
  }
}
