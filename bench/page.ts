// How long from the drop of a trial on the page to its verdict on the screen, in a real browser on this machine.
// Needs a built page: `npm run build && npx tsx bench/page.ts`.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { startSiteServer } from '../src/node/site-server.ts';
import { startBrowser } from '../tests/support/browser.ts';

const root = fileURLToPath(new URL('../', import.meta.url));
const rounds = 15;
/** What was on the screen before: a page that shows the same report again changes nothing. */
const other = readFileSync(`${root}sample-trials/wand-forward.c3d`);
const trials = ['heel-low', 'sacral-high', 'adult-well-placed'];

const started = await startBrowser();
if ('reason' in started) throw new Error(started.reason);
const server = await startSiteServer(`${root}dist/page`, 0);

console.log('| trial | bytes | first verdict, median (ms) | worst | next verdict, median (ms) | worst |');
console.log('| --- | --- | --- | --- | --- | --- |');
for (const trial of trials) {
  const bytes = readFileSync(`${root}sample-trials/${trial}.c3d`);
  const [first, next]: [number[], number[]] = [[], []];
  for (let round = 0; round < rounds; round++) {
    // Each on a page of its own, as if it had just been opened and stood there until the capture.
    const page = await started.browser.newPage();
    await page.goto(`http://127.0.0.1:${server.port}/`, { waitUntil: 'networkidle' });
    first.push(await verdictMs(page, bytes));
    next.push(await verdictMs(page, other));
    await page.close();
  }
  const cells = [first, next].flatMap((times) => [middle(times), Math.max(...times)].map((ms) => ms.toFixed(0)));
  console.log(`| ${trial} | ${bytes.length} | ${cells.join(' | ')} |`);
}
await started.close();
await server.close();

/** From the drop, with the file at hand, until the frame after the verdict stands in the page. */
function verdictMs(page: import('playwright-core').Page, bytes: Buffer): Promise<number> {
  return page.evaluate(async (text) => {
    const content = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
    const dataTransfer = new DataTransfer();
    dataTransfer.items.add(new File([content], 'trial.c3d'));
    const shown = document.querySelector('.shown')!;
    const start = performance.now();
    const changed = new Promise<void>((done) => {
      new MutationObserver((_, observer) => {
        observer.disconnect();
        requestAnimationFrame(() => requestAnimationFrame(() => done()));
      }).observe(shown, { childList: true, subtree: true, characterData: true, attributes: true });
    });
    document.body.dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true }));
    await changed;
    return performance.now() - start;
  }, bytes.toString('base64'));
}

function middle(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[times.length >> 1]!;
}
