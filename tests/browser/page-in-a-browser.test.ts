import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type SiteServer, startSiteServer } from '../../src/node/site-server.ts';
import { runInProcess } from '../cli/run-in-process.ts';
import { startBrowser } from '../support/browser.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const site = join(root, 'dist/page');
const sample = (name: string) => join(root, 'sample-trials', name);
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

describe('the page as it is built', () => {
  it('is under 300 KB compressed, all its files together', () => {
    expect(existsSync(site)).toBe(true);
    const files = readdirSync(site, { recursive: true, encoding: 'utf8' })
      .map((name) => join(site, name))
      .filter((path) => statSync(path).isFile());
    expect(files.length).toBeGreaterThan(4);
    const bytes = files.reduce((sum, path) => sum + gzipSync(readFileSync(path)).length, 0);
    expect(bytes).toBeLessThan(300_000);
  });

  it('names no other place', () => {
    const html = readFileSync(join(site, 'index.html'), 'utf8');
    expect(html).not.toMatch(/https?:|\ssrc="\/|\shref="\//);
    expect(html).toContain("default-src 'none'");
  });
});

const started = await startBrowser();
const skipped = 'reason' in started ? ` (skipped: ${started.reason})` : '';

describe.skipIf('reason' in started)(`the page in a browser${skipped}`, () => {
  let server: SiteServer;
  let page: Page;
  let asked: string[];
  let faults: string[];
  beforeAll(async () => {
    server = await startSiteServer(site, 0);
  });
  beforeEach(async () => {
    await page?.close();
    page = await ('browser' in started ? started.browser : null)!.newPage({ viewport: { width: 1280, height: 800 } });
    [asked, faults] = [[], []];
    page.on('request', (request) => asked.push(request.url()));
    page.on('console', (message) => faults.push(message.text()));
    page.on('pageerror', (error) => faults.push(String(error)));
    await page.goto(`http://127.0.0.1:${server.port}/`);
    await page.waitForSelector('input[type=file]', { state: 'attached' });
  });
  afterAll(async () => {
    if ('close' in started) await started.close();
    await server?.close();
  });

  const choose = (...names: string[]) => page.setInputFiles('input[type=file]', names.map(sample));
  const found = () => page.locator('h1').textContent();

  /** A drop as a browser makes one: the files in a transfer, over the page and let go. */
  async function drop(name: string, bytes: Uint8Array): Promise<void> {
    await page.evaluate(
      ([file, text]) => {
        const content = Uint8Array.from(atob(text!), (letter) => letter.charCodeAt(0));
        const dataTransfer = new DataTransfer();
        dataTransfer.items.add(new File([content], file!));
        for (const kind of ['dragover', 'drop'])
          document.body.dispatchEvent(new DragEvent(kind, { dataTransfer, bubbles: true, cancelable: true }));
      },
      [name, Buffer.from(bytes).toString('base64')],
    );
  }

  it('shows the step of a trial that is dropped, and asks nobody but itself', async () => {
    await drop('standing.c3d', readFileSync(sample('heel-low.c3d')));
    await page.waitForSelector('.way');
    expect(await found()).toBe('1 step to do before walking.');
    expect(await page.locator('.who').textContent()).toContain("patient's left heel marker");
    expect(await page.locator('.way').textContent()).toContain('11 mm');
    expect(await page.locator('body').textContent()).not.toContain('standing.c3d');
    expect(asked.filter((url) => !url.startsWith(`http://127.0.0.1:${server.port}/`))).toEqual([]);
    expect(faults).toEqual([]);
  });

  it('saves the very report that the command prints, as JSON and as a page', async () => {
    await choose('heel-low.c3d');
    await page.waitForSelector('article');
    const saved = async (button: string) => {
      const [download] = await Promise.all([page.waitForEvent('download'), page.click(`text=${button}`)]);
      return { name: download.suggestedFilename(), text: readFileSync((await download.path())!, 'utf8') };
    };
    const json = await saved('Save as JSON');
    const html = await saved('Save the page');
    const args = ['check', sample('heel-low.c3d'), '--format'];
    const printed = JSON.parse((await runInProcess([...args, 'json'])).stdout);
    // The command knows the path, the browser the name; and the tests run from the sources.
    const expected = { ...printed, trial: { ...printed.trial, path: 'heel-low.c3d' } };
    expect({ ...JSON.parse(json.text), tool: printed.tool }).toEqual(expected);
    expect(json.name).toMatch(/^report-[0-9a-f]{8}\.json$/);
    const version = /setsquare (\S+)<\/dd>/;
    const own = (await runInProcess([...args, 'html'])).stdout;
    expect(html.text.replace(version, '')).toBe(own.replace(version, ''));
  });

  it('checks with a session, against another marker set, and again without', async () => {
    await choose('child-well-placed.c3d', 'child-well-placed.session.json');
    await page.waitForSelector('text=Subject MR-02');
    await page.click('text=Without it');
    await page.waitForSelector('text=Subject without a code');
    await page.selectOption('.setting select', 'lower-limb-medial-20');
    await page.waitForSelector('.identity:has-text("lower-limb-medial-20")');
  });

  it('says in one sentence what is wrong with a file, and goes on', async () => {
    await drop('our-lab.json', Buffer.from('{"format": "setsquare-marker-set/1", "name": 3}'));
    await drop('standing.c3d', readFileSync(sample('heel-low.c3d')));
    await page.waitForSelector('.faults p');
    expect(await page.locator('.faults').textContent()).toMatch(/^Marker set our-lab\.json: /);
    await page.selectOption('.setting select', 'lower-limb-wands-22');
    await page.waitForSelector('article');
    expect(await page.locator('.faults').textContent()).toBe('');
    await drop('notes.txt', Buffer.from('<img src=x onerror=alert(1)>'));
    await page.waitForSelector('text=This trial cannot be judged');
    expect(await page.locator('img').count()).toBe(0);
  });

  it('stamps a report with other limits as no record, and lets none be saved', async () => {
    await choose('heel-low.c3d');
    await page.waitForSelector('article');
    await page.click('text=Teaching view');
    const all = page.locator('input[type=range]').first();
    await all.fill('200');
    await page.waitForSelector('.stamp');
    expect(await page.locator('.stamp').textContent()).toBe("Limits differ from the lab's set: not a record");
    expect(await found()).not.toContain('1 step');
    expect(await page.locator('text=/Save|Print/').count()).toBe(0);
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.stamp').isVisible()).toBe(true);
    await page.emulateMedia({ media: 'screen' });
    await page.click("text=Back to the laboratory's limits");
    await page.waitForSelector('.stamp', { state: 'detached' });
    await page.click('text=Leave the teaching view');
    await page.waitForSelector('text=Save the page');
    expect(await found()).toBe('1 step to do before walking.');
  });

  it('forgets other limits with the next trial', async () => {
    await choose('heel-low.c3d');
    await page.waitForSelector('article');
    await page.click('text=Teaching view');
    await page.locator('input[type=range]').first().fill('300');
    await page.waitForSelector('.stamp');
    await choose('wand-forward.c3d');
    await page.waitForSelector('.who:has-text("thigh wand")');
    expect(await page.locator('.stamp').count()).toBe(0);
  });

  it('is done by keyboard alone', async () => {
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('type'))).toBe('file');
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('SELECT');
    await choose('heel-low.c3d');
    await page.waitForSelector('article');
    await page.locator('text=Teaching view').focus();
    await page.keyboard.press('Enter');
    await page.waitForSelector('input[type=range]');
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('type'))).toBe('range');
    for (let press = 0; press < 4; press++) await page.keyboard.press('ArrowRight');
    await page.waitForSelector('.stamp');
    expect(await page.locator('output').first().textContent()).toBe('120 %');
  });

  it.each([1280, 390])('has no barrier that axe finds, and runs over no side, at a width of %s', async (width) => {
    await page.setViewportSize({ width, height: 844 });
    const look = () =>
      page.evaluate(async () => {
        const { violations } = await (
          globalThis as unknown as { axe: { run(): Promise<{ violations: { id: string }[] }> } }
        ).axe.run();
        return violations.map(({ id }) => id);
      });
    // The policy of the page lets no script in; whoever steers the browser may run one.
    await page.evaluate(axe);
    expect(await look()).toEqual([]);
    await choose('heel-low.c3d');
    await page.waitForSelector('article');
    await page.click('text=Teaching view');
    await page.waitForSelector('.teaching');
    expect(await look()).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  });
});
