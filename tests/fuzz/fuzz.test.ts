import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { commandFolder } from './command-case.ts';
import { type Kind, runCase } from './run-cases.ts';

const seed = 20240612;
let folder: ReturnType<typeof commandFolder>;
beforeAll(() => {
  folder = commandFolder();
});
afterAll(() => folder.remove());

/** `npm run fuzz` runs as many more as one likes; what it finds is repeated with --only. */
describe.each<[Kind, number, readonly string[]]>([
  ['file', 3000, ['read', 'read in part', 'refused']],
  ['trial', 500, ['adjust', 'not-assessable', 'ready', 'refused']],
  ['written', 250, ['refused', 'used']],
  ['command', 60, ['exit 0', 'exit 1', 'exit 2']],
])('hostile input, %s', (kind, cases, everyOutcome) => {
  it(`survives ${cases} cases, and they reach every outcome`, async () => {
    const outcomes = new Set<string>();
    for (let number = 0; number < cases; number++) {
      try {
        outcomes.add(await runCase(kind, seed, number, folder.path));
      } catch (error) {
        throw new Error(`npm run fuzz -- --kind ${kind} --seed ${seed} --only ${number}`, { cause: error });
      }
    }
    expect([...outcomes].sort()).toEqual(everyOutcome);
  });
});
