// The page that checks trials in a browser, as a static site in dist/page: any server of plain files can hand it out.
import { readdirSync, readFileSync } from 'node:fs';
import { tsImport } from 'tsx/esm/api';
import { build } from 'vite';

const root = new URL('../', import.meta.url).pathname;

/**
 * @param version of the program, told in its reports
 * @param expanded folder with the marker sets that ship, spelt out
 */
export async function buildPage(version, expanded) {
  const { pageStyle } = await tsImport('../src/page/style/page-style.ts', import.meta.url);
  const { browserStyle } = await tsImport('../src/browser/browser-style.ts', import.meta.url);
  await build({
    configFile: false,
    root: `${root}src/browser`,
    base: './',
    logLevel: 'warn',
    publicDir: false,
    define: { SETSQUARE_VERSION: JSON.stringify(version) },
    oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
    worker: { format: 'es' },
    build: { outDir: `${root}dist/page`, emptyOutDir: true, target: 'es2023', modulePreload: { polyfill: false } },
    plugins: [
      besideThePage({ 'page.css': pageStyle + browserStyle, 'shipped.json': JSON.stringify(shipped(expanded)) }),
    ],
  });
}

function besideThePage(files) {
  return {
    name: 'beside-the-page',
    generateBundle() {
      for (const [fileName, source] of Object.entries(files)) this.emitFile({ type: 'asset', fileName, source });
    },
  };
}

/** See ShippedFile in src/browser/messages.ts. Norms are for one set as it stands: those for another are left out. */
function shipped(expanded) {
  const norms = readdirSync(`${root}shared/norms`).map((file) => readJson(`${root}shared/norms/${file}`));
  const sets = readdirSync(expanded).map((file) => readJson(`${expanded}/${file}`));
  return {
    sets: sets.map((set) => ({ set, norms: norms.find(({ markerSet }) => markerSet.sha256 === set.sha256) ?? null })),
    adult: readJson(`${root}shared/reference-adult.json`).positions,
  };
}

function readJson(path) {
  return JSON.parse(readFileSync(path, 'utf8'));
}
