// Schemas into functions, sources into bundles for the command and for the library, types beside them.
//
// The command starts while a patient stands waiting. So it is CommonJS, whose loader Node has at hand before the one
// for modules, and one file; what only some runs need and is large lies beside it (`apart`).
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { build } from 'esbuild';
import { compileSchemas } from './compile-schemas.js';

const root = new URL('../', import.meta.url).pathname;
process.chdir(root);
const { version } = JSON.parse(readFileSync('package.json', 'utf8'));

/** Loaded by a dynamic import of src/cli; whatever code they share with the command they hold a second time. */
const apart = {
  'parse-marker-set': 'src/core/marker-set/parse-marker-set.ts',
  'parse-session': 'src/core/session/parse-session.ts',
};

const common = {
  outdir: 'dist',
  bundle: true,
  platform: 'node',
  target: 'node20',
  // gl-matrix has its modules under "module"; from those only what is used is taken.
  mainFields: ['module', 'main'],
  define: { SETSQUARE_VERSION: JSON.stringify(version) },
  logLevel: 'warning',
};
const command = {
  ...common,
  format: 'cjs',
  outExtension: { '.js': '.cjs' },
  // Names stay whole, so that what --debug prints can be read.
  minifySyntax: true,
  minifyWhitespace: true,
  legalComments: 'none',
  supported: { 'dynamic-import': false },
  define: { ...common.define, 'import.meta.url': 'setsquareBundleUrl' },
  banner: { js: '"use strict";const setsquareBundleUrl=require("node:url").pathToFileURL(__filename).href;' },
};

/** Leaves what lies apart to be required when the command comes to its import. */
const leaveApart = {
  name: 'leave-apart',
  setup({ onResolve }) {
    onResolve({ filter: new RegExp(`/(${Object.keys(apart).join('|')})\\.ts$`) }, ({ kind, path }) =>
      kind === 'dynamic-import' ? { path: `./${path.split('/').at(-1).replace('.ts', '.cjs')}`, external: true } : null,
    );
  },
};

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
const { metafile } = await build({
  ...command,
  entryPoints: { cli: 'src/cli/run.ts' },
  plugins: [leaveApart, noOtherPrograms],
  metafile: true,
});
// For the test that holds what every run has to load (tests/cli/loaded-modules.test.ts).
writeFileSync('dist/cli-sources.json', JSON.stringify(Object.keys(metafile.inputs).sort(), null, 1));
await build({ ...command, entryPoints: apart });
await build({ ...common, entryPoints: { index: 'src/index.ts' }, format: 'esm' });
expandMarkerSets();
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
