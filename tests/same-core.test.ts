import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { build } from 'esbuild';
import { type Browser, chromium } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parseMarkerSet } from '../src/core/marker-set/parse-marker-set.ts';

const root = fileURLToPath(new URL('../', import.meta.url));
const samples = join(root, 'sample-trials');
const names = readdirSync(samples)
  .filter((name) => name.endsWith('.c3d'))
  .sort();
const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');

interface Order {
  readonly path: string;
  /** base64, so that it goes into a page as it is */
  readonly trial: string;
  readonly sha256: string;
  readonly markerSet: string;
  readonly markerSetSha256: string;
  readonly norms: string;
  readonly session: string | null;
}

const markerSet = readFileSync(join(root, 'shared/marker-sets/lower-limb-wands-22.json'), 'utf8');
const markerSetSha256 = sha256(new TextEncoder().encode(markerSet));
const norms = readFileSync(join(root, 'shared/norms/lower-limb-wands-22.json'), 'utf8');
const orders: Order[] = names.map((path) => {
  const bytes = readFileSync(join(samples, path));
  const session = `${path.slice(0, -4)}.session.json`;
  return {
    path,
    trial: bytes.toString('base64'),
    sha256: sha256(bytes),
    markerSet,
    markerSetSha256,
    norms,
    session: readdirSync(samples).includes(session) ? readFileSync(join(samples, session), 'utf8') : null,
  };
});

/** The core and nothing else, as one script that leaves `check` behind: what a page would load. */
const script = build({
  stdin: {
    contents: `
      import { checkTrial } from './src/core/check-trial.ts';
      import { parseNorms } from './src/core/decision/parse-norms.ts';
      import { parseMarkerSet } from './src/core/marker-set/parse-marker-set.ts';
      import { formatJson } from './src/core/report/format-json.ts';
      import { formatText } from './src/core/report/format-text.ts';
      import { parseSession } from './src/core/session/parse-session.ts';
      import { emptySession } from './src/core/session/session.ts';
      globalThis.check = ({ path, trial, sha256, markerSet, markerSetSha256, norms, session }) => {
        const bytes = Uint8Array.from(atob(trial), (letter) => letter.charCodeAt(0));
        const set = parseMarkerSet(markerSet, markerSetSha256);
        const recorded = session === null ? emptySession : parseSession(session);
        const report = checkTrial(bytes, set, recorded, { path, sha256 }, parseNorms(norms, set));
        return formatJson([report]) + formatText(report, { columns: 80, color: false });
      };`,
    resolveDir: root,
    loader: 'js',
  },
  bundle: true,
  write: false,
  format: 'iife',
  platform: 'browser',
  target: 'es2023',
  logLevel: 'error',
}).then(({ outputFiles }) => outputFiles[0]!.text);

declare global {
  /** Left behind by the script. */
  var check: (order: Order) => string;
}

let here: string[];
beforeAll(async () => {
  new Function(await script)();
  here = orders.map((order) => globalThis.check(order));
});

it('knows each sample by its verdict, so that the comparisons below compare something', () => {
  const verdicts = here.map((text) => /"verdict": "(.+)"/.exec(text)![1]);
  expect(new Set(verdicts)).toEqual(new Set(['ready', 'adjust']));
  expect(new Set(here).size).toBe(names.length);
  expect(here.filter((text) => /"probability": 0\.\d/.test(text)).length).toBeGreaterThan(3);
  expect(parseMarkerSet(markerSet, '').name).toBe('lower-limb-wands-22');
});

it('gives the same bytes a second time in the same process', () => {
  expect(orders.map((order) => globalThis.check(order))).toEqual(here);
});

it('gives the same bytes in a worker thread', async () => {
  const source = `${await script}
    const { parentPort, workerData } = require('node:worker_threads');
    parentPort.postMessage(workerData.map((order) => globalThis.check(order)));`;
  const there = await new Promise<string[]>((resolve, reject) => {
    const worker = new Worker(source, { eval: true, workerData: orders });
    worker.once('message', resolve);
    worker.once('error', reject);
  });
  expect(there).toEqual(here);
});

describe('in a browser', () => {
  // Chromium comes packed inside an npm package and unpacks itself into the folder for temporary files.
  let folder: string;
  let browser: Browser;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'setsquare-browser-'));
    const usual = process.env.TMPDIR;
    process.env.TMPDIR = folder;
    const { default: packed } = await import('@sparticuz/chromium');
    packed.setGraphicsMode = false;
    browser = await chromium.launch({
      executablePath: await packed.executablePath(),
      args: [...packed.args, '--disable-gpu', '--disable-background-networking', '--disable-component-update'],
    });
    if (usual === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = usual;
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  it('gives the same bytes, under a policy that lets nothing compile and nothing load', async () => {
    const page = await browser.newPage();
    const asked: string[] = [];
    const faults: string[] = [];
    page.on('pageerror', (error) => faults.push(String(error)));
    page.on('console', (message) => faults.push(message.text()));
    const code = await script;
    const hash = createHash('sha256').update(code).digest('base64');
    await page.route('**/*', async (route) => {
      asked.push(route.request().url());
      await route.fulfill({
        contentType: 'text/html; charset=utf-8',
        headers: { 'content-security-policy': `default-src 'none'; script-src 'sha256-${hash}'` },
        body: `<!doctype html><title>core</title><script>${code}</script>`,
      });
    });
    await page.goto('http://127.0.0.1/core');
    const there: string[] = [];
    for (const order of orders) there.push(await page.evaluate((given) => globalThis.check(given), order));
    expect(faults).toEqual([]);
    expect(asked).toEqual(['http://127.0.0.1/core']);
    expect(there).toEqual(here);
  });
});
