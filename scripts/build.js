// Schemas into functions, sources into one bundle for the command and one for the library, types beside them.
import { execFileSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { build } from 'esbuild';
import { compileSchemas } from './compile-schemas.js';

const root = new URL('../', import.meta.url).pathname;
process.chdir(root);
const { version } = JSON.parse(readFileSync('package.json', 'utf8'));

rmSync('dist', { recursive: true, force: true });
await compileSchemas();
await build({
  entryPoints: { cli: 'src/cli/run.ts', index: 'src/index.ts' },
  outdir: 'dist',
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  chunkNames: 'chunks/[name]-[hash]',
  define: { SETSQUARE_VERSION: JSON.stringify(version) },
  // commander is CommonJS inside; bundled ESM needs a require for its node: imports.
  banner: {
    js: "import { createRequire as setsquareRequire } from 'node:module'; const require = setsquareRequire(import.meta.url);",
  },
  logLevel: 'warning',
});
execFileSync(process.execPath, ['node_modules/typescript/bin/tsc', '-p', 'tsconfig.build.json'], { stdio: 'inherit' });
