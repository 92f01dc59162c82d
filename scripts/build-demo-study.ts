// A repeatability study of invented people for `setsquare study`: npx tsx scripts/build-demo-study.ts FOLDER [SEED]
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildDemoStudy } from '../sample-trials/demo-study.ts';

const [folder, seed = '1'] = process.argv.slice(2);
if (folder === undefined) throw new Error('Name the folder that the study is to be written into.');
mkdirSync(folder, { recursive: true });
for (const { path, content } of buildDemoStudy(Number(seed))) writeFileSync(join(folder, path), content);
console.log(`Study in ${folder}: setsquare study ${join(folder, 'study.json')}`);
