// Bundles the benchmark and runs it: npm run bench, npm run bench -- --write.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';

const root = new URL('../', import.meta.url).pathname;
const folder = mkdtempSync(join(tmpdir(), 'setsquare-bench-'));
try {
  await build({
    absWorkingDir: root,
    entryPoints: ['bench/main.ts', 'bench/memory-child.ts'],
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    mainFields: ['module', 'main'],
    logLevel: 'warning',
  });
  const argv = [join(folder, 'main.mjs'), root, join(folder, 'memory-child.mjs'), ...process.argv.slice(2)];
  process.exitCode = spawnSync(process.execPath, argv, { stdio: 'inherit' }).status ?? 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
