// Schemas into functions, sources into bundles for the command and for the library, types beside them.
//
// The command starts while a patient stands waiting. So it is CommonJS, whose loader Node has at hand before the one
// for modules, and one file. What is imported dynamically lies apart, in files beside it, but for what most runs need.
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, relative, resolve } from 'node:path';
import { build } from 'esbuild';
import { buildPage } from './build-page.js';
import { compileSchemas } from './compile-schemas.js';

const root = new URL('../', import.meta.url).pathname;
process.chdir(root);
const { version } = JSON.parse(readFileSync('package.json', 'utf8'));

/** Imported dynamically, and yet in the file of the command: one file is read sooner than two. */
const withCommand = new Set([
  'src/cli/check-command.ts',
  'src/cli/inspect-command.ts',
  'src/core/check-trial.ts',
  'src/core/inspect-trial.ts',
  'src/core/report/format-json.ts',
  'src/core/report/format-text.ts',
]);

const common = {
  outdir: 'dist',
  bundle: true,
  platform: 'node',
  target: 'node20',
  // gl-matrix has its modules under "module"; from those only what is used is taken.
  mainFields: ['module', 'main'],
  define: { SETSQUARE_VERSION: JSON.stringify(version) },
  logLevel: 'warning',
  // Optional, and native: loaded where it is installed.
  external: ['@duckdb/node-api'],
};
const command = {
  ...common,
  format: 'cjs',
  outExtension: { '.js': '.cjs' },
  // Functions keep their names, so that what --debug prints can be read.
  minify: true,
  keepNames: true,
  legalComments: 'none',
  supported: { 'dynamic-import': false },
  define: { ...common.define, 'import.meta.url': 'setsquareBundleUrl' },
  banner: { js: '"use strict";const setsquareBundleUrl=require("node:url").pathToFileURL(__filename).href;' },
};

/**
 * Source of each file apart by its name. It holds a second time whatever it shares with the command, except the errors,
 * which are told apart by their class: those it takes from the command.
 */
const apart = new Map();
const errorClass = /-error\.ts$/;

function leaveApart(fromCommand) {
  return {
    name: 'leave-apart',
    setup({ onResolve }) {
      onResolve({ filter: /\.tsx?$/ }, ({ kind, path, resolveDir }) => {
        const source = relative(root, resolve(resolveDir, path));
        if (kind === 'import-statement' && fromCommand && errorClass.test(path))
          return { path: './cli.cjs', external: true };
        if (kind !== 'dynamic-import' || withCommand.has(source)) return null;
        const name = basename(source).replace(/\.tsx?$/, '');
        if ((apart.get(name) ?? source) !== source) throw new Error(`Two files apart would be called ${name}.`);
        apart.set(name, source);
        return { path: `./${name}.cjs`, external: true };
      });
    },
  };
}

/** commander starts other programs for subcommands that are programs; there are none here, and loading takes time. */
const noOtherPrograms = {
  name: 'no-other-programs',
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^node:child_process$/ }, ({ path }) => ({ path, namespace: 'no-other-programs' }));
    onLoad({ filter: /.*/, namespace: 'no-other-programs' }, () => ({ contents: 'module.exports = {};' }));
  },
};

rmSync('dist', { recursive: true, force: true });
await compileSchemas();
const errors = readdirSync('src', { recursive: true }).filter((path) => errorClass.test(path));
const { metafile } = await build({
  ...command,
  stdin: {
    contents: ['cli/run.ts', ...errors].map((path) => `export * from './src/${path}';`).join('\n'),
    resolveDir: root,
    sourcefile: 'cli.js',
  },
  outdir: undefined,
  outfile: 'dist/cli.cjs',
  plugins: [leaveApart(false), noOtherPrograms],
  metafile: true,
});
// For the test that holds what every run has to load (tests/cli/loaded-modules.test.ts).
writeFileSync('dist/cli-sources.json', JSON.stringify(Object.keys(metafile.inputs).sort(), null, 1));
// Files apart may name further ones, which join the map as it is walked through.
for (const [name, source] of apart) {
  await build({ ...command, entryPoints: { [name]: source }, plugins: [leaveApart(true), noOtherPrograms] });
}
// A thread loads nothing of the thread that starts it.
await build({ ...command, entryPoints: { 'check-worker': 'src/watch/check-worker.ts' } });
await build({
  ...common,
  entryPoints: { 'live-page': 'src/browser/live-page.ts' },
  format: 'iife',
  platform: 'browser',
  target: 'es2022',
});
await build({ ...command, entryPoints: { 'audit-worker': 'src/audit/check/audit-worker.ts' } });
// What the pool starts its threads with: it looks for this name beside itself, and its own module system is that of dist.
await build({
  ...common,
  entryPoints: { worker: 'node_modules/piscina/dist/worker.js' },
  format: 'esm',
  external: ['@napi-rs/nice'],
  banner: { js: "import { createRequire } from 'node:module';const require = createRequire(import.meta.url);" },
});
await build({ ...common, entryPoints: { index: 'src/index.ts' }, format: 'esm' });
expandMarkerSets();
await buildPage(version, `${root}dist/expanded-marker-sets`);
execFileSync(process.execPath, ['node_modules/typescript/bin/tsc', '-p', 'tsconfig.build.json'], { stdio: 'inherit' });

/** What parsing makes of each marker set that ships, under the hash of its file: see expanded-marker-set.ts. */
function expandMarkerSets() {
  const { parseMarkerSet } = createRequire(import.meta.url)('../dist/parse-marker-set.cjs');
  mkdirSync('dist/expanded-marker-sets');
  for (const file of readdirSync('shared/marker-sets')) {
    const bytes = readFileSync(`shared/marker-sets/${file}`);
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    const expanded = parseMarkerSet(bytes.toString('utf8'), sha256);
    writeFileSync(`dist/expanded-marker-sets/${sha256}.json`, JSON.stringify(expanded));
  }
}
