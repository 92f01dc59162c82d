import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { buildSampleFiles } from './build-samples.ts';

/** Writes the sample trials beside this file; the same bytes every time. Run: `npx tsx sample-trials/generate.ts`. */
const folder = new URL('./', import.meta.url);
for (const [name, content] of buildSampleFiles()) {
  writeFileSync(new URL(name, folder), content);
  process.stderr.write(`${fileURLToPath(new URL(name, folder))}: ${content.length} bytes\n`);
}
