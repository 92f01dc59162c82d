// Measures and prints the table, or with `--audit` that of audits; `--write` puts it into docs/performance.md between its
// markers. Started by scripts/bench.js, which bundles this as the command is bundled: the code that is measured is the code that ships.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { auditArchives } from './auditing.ts';
import { checkManyTrials, weighOnce } from './checking.ts';
import { readLargeTrials, readSmallTrial } from './reading.ts';
import type { Row } from './row.ts';
import { startProcesses } from './starting.ts';
import { table } from './table.ts';

const [root, memoryChild, ...flags] = process.argv.slice(2);
if (root === undefined || memoryChild === undefined) throw new Error('Run it with: npm run bench');

const folder = mkdtempSync(join(tmpdir(), 'setsquare-bench-'));
const rows: Row[] = [];
const block = flags.includes('--audit') ? 'bench-audit' : 'bench';
try {
  if (flags.includes('--audit')) rows.push(...auditArchives(root));
  else {
    rows.push(...startProcesses(root, folder), ...weighOnce(root), ...checkManyTrials(root), ...readSmallTrial());
    rows.push(...readLargeTrials(folder, memoryChild));
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
const text = table(rows, new Date().toISOString().slice(0, 10));
console.log(text);
if (flags.includes('--write')) {
  const page = join(root, 'docs', 'performance.md');
  const written = readFileSync(page, 'utf8').replace(
    new RegExp(`<!-- ${block} -->[\\s\\S]*<!-- /${block} -->`),
    () => `<!-- ${block} -->\n\n${text}\n\n<!-- /${block} -->`,
  );
  writeFileSync(page, written);
}
