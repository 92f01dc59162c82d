// A year of invented trials for `setsquare audit`: npx tsx scripts/build-demo-archive.ts FOLDER [VISITS] [SEED]
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { buildDemoArchive } from '../sample-trials/demo-archive.ts';

const [folder, visits = '300', seed = '1'] = process.argv.slice(2);
if (folder === undefined) throw new Error('Name the folder that the archive is to be written into.');
let count = 0;
for (const { path, content } of buildDemoArchive({ visits: Number(visits), seed: Number(seed) })) {
  const target = join(folder, path);
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, content);
  count += 1;
}
console.log(`${count} files in ${folder}.`);
