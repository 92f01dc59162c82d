// Checks every sample trial as a user would and prints the reports: three in full, the others by their first lines.
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';

process.chdir(new URL('../', import.meta.url).pathname);
const inFull = new Set(['heel-low', 'wand-forward', 'adult-well-placed']);
const trials = readdirSync('sample-trials')
  .filter((name) => name.endsWith('.c3d'))
  .map((name) => name.slice(0, -4));

for (const trial of [...trials.filter((name) => !inFull.has(name)), ...trials.filter((name) => inFull.has(name))]) {
  const session = `sample-trials/${trial}.session.json`;
  const args = ['check', `sample-trials/${trial}.c3d`, ...(existsSync(session) ? ['--session', session] : [])];
  console.log(`\n$ setsquare ${args.join(' ')}\n`);
  const text = check(args);
  console.log(inFull.has(trial) ? text : `${steps(text)}\n  ...`);
}

/** Exit 1 (something to adjust) and 2 (not assessable) are what some samples are for; anything else is a fault. */
function check(args) {
  try {
    return execFileSync(process.execPath, ['bin/setsquare.js', ...args], { encoding: 'utf8' });
  } catch (error) {
    if (error.status === 1 || (error.status === 2 && error.stdout !== '')) return error.stdout;
    throw error;
  }
}

/** What is said first: the verdict and the steps. */
function steps(text) {
  const end = text.indexOf('If walking trials');
  return text.slice(0, end === -1 ? text.length : end).trimEnd();
}
