// Checks every sample trial as a user would: one report in full, then what is said first of each of the others.
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';

process.chdir(new URL('../', import.meta.url).pathname);
const inFull = 'heel-low';
const trials = readdirSync('sample-trials')
  .filter((name) => name.endsWith('.c3d'))
  .map((name) => name.slice(0, -4));

for (const trial of [inFull, ...trials.filter((name) => name !== inFull)]) {
  const session = `sample-trials/${trial}.session.json`;
  const args = ['check', `sample-trials/${trial}.c3d`, ...(existsSync(session) ? ['--session', session] : [])];
  console.log(`\n$ setsquare ${args.join(' ').replace(' --session', ' \\\n    --session')}\n`);
  const text = check(args);
  console.log(trial === inFull ? text : `${steps(text)}\n  ...`);
}
console.log(`
These were ${trials.length} invented people, with one known thing about the markers of each:
see sample-trials/README.md. What else there is: node bin/setsquare.js --help
The same checks on a page, with pictures: node bin/setsquare.js page`);

/** Exit 1 (something to adjust) and 2 (not assessable) are what some samples are for; anything else is a fault. */
function check(args) {
  try {
    return execFileSync(process.execPath, ['bin/setsquare.js', ...args], { encoding: 'utf8' });
  } catch (error) {
    if (error.status === 1 || (error.status === 2 && error.stdout !== '')) return error.stdout;
    throw error;
  }
}

/** What is said first: the verdict and the steps, up to the cautions, which every report repeats. */
function steps(text) {
  const ends = ['If walking trials', 'After two corrections', 'Passed'].map((words) => text.indexOf(`\n${words}`));
  return text.slice(0, Math.min(...ends.filter((at) => at >= 0), text.length)).trimEnd();
}
