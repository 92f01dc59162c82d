// Fills in what the pages show of the program's own output: after a line `<!-- output: setsquare ... -->` stands a
// fenced block with what that command prints at 80 columns. `node scripts/update-docs.js` writes them; a test compares.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = new URL('../', import.meta.url).pathname;
/** What a page may have made before its commands run, in a folder of the generator's own name. */
const generators = {
  'generate:archive': 'scripts/build-demo-archive.ts',
  'generate:study': 'scripts/build-demo-study.ts',
};
const block = /<!-- output: (setsquare [^\n]*?)(?: \| (first|last) (\d+) lines)? -->\n\n```text\n[\s\S]*?```/g;

export const pagesWithOutput = () =>
  [
    'README.md',
    'DEVELOPERS.md',
    ...readdirSync(`${root}docs`, { recursive: true }).map((name) => `docs/${name}`),
  ].filter(
    (name) => name.endsWith('.md') && /<!-- (output: setsquare|files of src)/.test(readFileSync(root + name, 'utf8')),
  );

const fileMap = /<!-- files of src -->\n\n```text\n[\s\S]*?```/;

/** The page with every block as the program prints it now, and the map of the sources as they lie. */
export function withCurrentOutput(page) {
  const text = readFileSync(root + page, 'utf8').replace(
    fileMap,
    () => `<!-- files of src -->\n\n\`\`\`text\n${mapOf('src')}\n\`\`\``,
  );
  const marked = text.match(/<!-- output: /g)?.length ?? 0;
  if (marked !== (text.match(block)?.length ?? 0)) throw new Error(`${page}: an output marker has no block under it.`);
  // Commands of one page run in one folder of their own, so that a later one can read what an earlier one wrote.
  const folder = mkdtempSync(join(tmpdir(), 'setsquare-docs-'));
  symlinkSync(join(root, 'sample-trials'), join(folder, 'sample-trials'));
  for (const [, made] of text.matchAll(/<!-- made: npm run (generate:[a-z]+) -- [a-z]+ -->/g)) {
    const script = generators[made];
    execFileSync(join(root, 'node_modules/.bin/tsx'), [join(root, script), made.slice('generate:'.length)], {
      cwd: folder,
    });
  }
  const shown = text.replaceAll(block, (_, command, end, lines) => {
    const printed = run(command.split(' ').slice(1), folder).trimEnd().split('\n');
    const count = Number(lines);
    const shown =
      end === 'first'
        ? [...printed.slice(0, count), '...']
        : end === 'last'
          ? ['...', ...printed.slice(-count)]
          : printed;
    const limit = end === undefined ? '' : ` | ${end} ${lines} lines`;
    return `<!-- output: ${command}${limit} -->\n\n\`\`\`text\n${shown.join('\n')}\n\`\`\``;
  });
  rmSync(folder, { recursive: true });
  return shown;
}

/** Folders with their files, wrapped; what the build makes is left out. */
function mapOf(folder) {
  const lines = [];
  const walk = (path) => {
    const entries = readdirSync(root + path, { withFileTypes: true }).filter(({ name }) => name !== 'compiled');
    const files = entries.filter((entry) => entry.isFile()).map(({ name }) => name.replace(/\.tsx?$/, ''));
    let line = `${path}/`;
    for (const name of files.sort()) {
      if (line.length + name.length > 118) {
        lines.push(line);
        line = '   ';
      }
      line += `  ${name}`;
    }
    lines.push(line);
    for (const entry of entries.filter((one) => one.isDirectory())) walk(`${path}/${entry.name}`);
  };
  walk(folder);
  return lines.join('\n');
}

/** Standard output, or where there is none, standard error; findings and refusals exit with 1 and 2. */
function run(args, cwd) {
  const env = { ...process.env, NO_COLOR: '1', COLUMNS: '80' };
  try {
    return execFileSync(process.execPath, [join(root, 'bin/setsquare.js'), ...args], {
      cwd,
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
