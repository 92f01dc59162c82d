// Fills in what the pages show of the program's own output: after a line `<!-- output: setsquare ... -->` stands a
// fenced block with what that command prints at 80 columns. `node scripts/update-docs.js` writes them; a test compares.
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';

const root = new URL('../', import.meta.url).pathname;
const block = /<!-- output: (setsquare [^\n]*?)(?: \| first (\d+) lines)? -->\n\n```text\n[\s\S]*?```/g;

export const pagesWithOutput = () =>
  [
    'README.md',
    'DEVELOPERS.md',
    ...readdirSync(`${root}docs`, { recursive: true }).map((name) => `docs/${name}`),
  ].filter((name) => name.endsWith('.md') && readFileSync(root + name, 'utf8').includes('<!-- output: setsquare'));

/** The page with every block as the program prints it now. */
export function withCurrentOutput(page) {
  return readFileSync(root + page, 'utf8').replaceAll(block, (_, command, lines) => {
    const printed = run(command.split(' ').slice(1)).trimEnd().split('\n');
    const shown = lines === undefined ? printed : [...printed.slice(0, Number(lines)), '...'];
    const limit = lines === undefined ? '' : ` | first ${lines} lines`;
    return `<!-- output: ${command}${limit} -->\n\n\`\`\`text\n${shown.join('\n')}\n\`\`\``;
  });
}

/** Standard output, or where there is none, standard error; findings and refusals exit with 1 and 2. */
function run(args) {
  const env = { ...process.env, NO_COLOR: '1', COLUMNS: '80' };
  try {
    return execFileSync(process.execPath, ['bin/setsquare.js', ...args], {
      cwd: root,
      encoding: 'utf8',
      env,
      stdio: 'pipe',
    });
  } catch (error) {
    if (error.status !== 1 && error.status !== 2) throw error;
    return error.stdout === '' ? error.stderr : error.stdout;
  }
}

if (process.argv[1] === new URL(import.meta.url).pathname) {
  for (const page of pagesWithOutput()) writeFileSync(root + page, withCurrentOutput(page));
}
