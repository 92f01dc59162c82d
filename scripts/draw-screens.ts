// The pictures of pages in README and docs, taken from the real pages: `npm run build && npx tsx scripts/draw-screens.ts`.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { startSiteServer } from '../src/node/site-server.ts';
import { startBrowser } from '../tests/support/browser.ts';

const root = fileURLToPath(new URL('../', import.meta.url));
const pictures = join(root, 'docs/pictures');
const size = { width: 1280, height: 800 };

const started = await startBrowser();
if ('reason' in started) throw new Error(started.reason);
const page = await started.browser.newPage({ viewport: size });
const folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
mkdirSync(pictures, { recursive: true });

for (const trial of ['heel-low', 'wand-forward']) {
  await page.goto(pathToFileURL(reportOf(trial)).href);
  await page.screenshot({ path: join(pictures, `${trial}.png`) });
}
await page.goto(pathToFileURL(reportOf('sacral-high')).href);
await page.locator('.views').screenshot({ path: join(pictures, 'four-sides.png') });

const server = await startSiteServer(join(root, 'dist/page'), 0);
await page.goto(`http://127.0.0.1:${server.port}/`);
await page.setInputFiles('input[type=file]', join(root, 'sample-trials/heel-low.c3d'));
await page.waitForSelector('article');
await page.click('text=Teaching view');
await page.locator('input[type=range]').first().fill('150');
await page.waitForSelector('.stamp');
await page.screenshot({ path: join(pictures, 'teaching-view.png') });

await started.close();
await server.close();
rmSync(folder, { recursive: true, force: true });

/** Written by the command as a user runs it; it exits with 1 where there is something to do. */
function reportOf(trial: string): string {
  const output = join(folder, `${trial}.html`);
  const argv = ['bin/setsquare.js', 'check', `sample-trials/${trial}.c3d`, '--format', 'html', '--output', output];
  try {
    execFileSync(process.execPath, argv, { cwd: root });
  } catch (error) {
    if (!(error instanceof Error && 'status' in error && error.status === 1)) throw error;
  }
  return output;
}
