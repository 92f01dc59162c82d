import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { buildPlacings, buildPracticeHistory } from './build-practice.ts';
import { buildAnotherLab, buildKneeBends, buildSampleFiles } from './build-samples.ts';

/** Writes the sample trials beside this file; the same bytes every time. Run: `npx tsx sample-trials/generate.ts`. */
const folder = new URL('./', import.meta.url);
mkdirSync(new URL('another-lab', folder), { recursive: true });
mkdirSync(new URL('knee-bends', folder), { recursive: true });
mkdirSync(new URL('practice', folder), { recursive: true });
const files = new Map(buildSampleFiles()).set('another-lab/standing.c3d', buildAnotherLab().bytes);
for (const [name, bytes] of buildKneeBends()) files.set(`knee-bends/${name}`, bytes);
for (const [name, bytes] of buildPlacings()) files.set(`practice/${name}`, bytes);
files.set('practice/history.jsonl', buildPracticeHistory());
for (const [name, content] of files) {
  writeFileSync(new URL(name, folder), content);
  process.stderr.write(`${fileURLToPath(new URL(name, folder))}: ${content.length} bytes\n`);
}
