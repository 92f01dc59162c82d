// The pictures of pages in README and docs, taken from the real pages: `npm run build && npx tsx scripts/draw-screens.ts`.
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { buildDemoArchive } from '../sample-trials/demo-archive.ts';
import { buildDemoStudy } from '../sample-trials/demo-study.ts';
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

for (const { path, content } of buildDemoArchive({ visits: 300, seed: 1 })) {
  mkdirSync(dirname(join(folder, 'archive', path)), { recursive: true });
  writeFileSync(join(folder, 'archive', path), content);
}
const audit = join(folder, 'audit.html');
// It exits with 2 for the files of the archive that are no trials.
spawnSync(process.execPath, [
  join(root, 'bin/setsquare.js'),
  ...['audit', join(folder, 'archive'), '--store', join(folder, 'store'), '--format', 'html', '--output', audit],
]);
await page.setViewportSize({ width: 1280, height: 1250 });
await page.goto(pathToFileURL(audit).href);
await page.screenshot({ path: join(pictures, 'audit.png') });
await page.setViewportSize(size);

mkdirSync(join(folder, 'study'));
for (const { path, content } of buildDemoStudy()) writeFileSync(join(folder, 'study', path), content);
const study = join(folder, 'study.html');
execFileSync(process.execPath, [
  join(root, 'bin/setsquare.js'),
  ...['study', join(folder, 'study', 'study.json'), '--format', 'html', '--output', study],
]);
await page.goto(pathToFileURL(study).href);
const dots = (await page.locator('section[aria-labelledby=dots] .charts').boundingBox())!;
// The four placements that cost most.
const four = (await page.locator('section[aria-labelledby=dots] figure').nth(3).boundingBox())!;
await page.screenshot({
  path: join(pictures, 'study.png'),
  fullPage: true,
  clip: { ...dots, height: four.y + four.height - dots.y },
});

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
