import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { displace } from '../../sample-trials/plant-fault.ts';
import { writeC3d } from '../../src/core/c3d/write-c3d.ts';
import { emptySession } from '../../src/core/session/session.ts';
import { type LiveWatch, startLiveWatch } from '../../src/watch/live-watch.ts';
import { usualNames } from '../../src/watch/trial-names.ts';
import { startBrowser } from '../support/browser.ts';
import { wands22 } from '../support/shipped-marker-sets.ts';
import { standsAgain } from '../support/stand-again.ts';
import { stillContents } from '../support/still-trial.ts';

const started = await startBrowser();
const browser = 'browser' in started ? started : null;
if ('reason' in started) console.warn(`Skipped: the live page in a browser, since ${started.reason}`);

let folder: string;
let watch: LiveWatch;
let page: Page;
let faults: string[];
let asked: string[];

afterAll(() => browser?.close());

beforeEach(async () => {
  if (browser === null) return;
  folder = mkdtempSync(join(tmpdir(), 'setsquare-live-'));
  watch = await start(0);
  faults = [];
  asked = [];
  page = await browser.browser.newPage({ viewport: { width: 1280, height: 800 } });
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => faults.push(message.text()));
  page.on('request', (request) => asked.push(request.url()));
  await page.goto(watch.address);
});
afterEach(async () => {
  if (browser === null) return;
  await page.close();
  await watch.close();
  rmSync(folder, { recursive: true, force: true });
});

function start(port: number): Promise<LiveWatch> {
  const options = { folder, names: usualNames, existing: false, poll: false, port, showNames: false };
  const nothing = { onCapture() {}, onFolder() {}, onLocked() {}, onOtherTrial() {} };
  return startLiveWatch(options, { markerSet: wands22, session: emptySession, norms: null }, nothing);
}

/** The same person for the so many-th time, the left heel marker so much too high. */
function capture(number: number, heelMm: number): void {
  const body = displace(standsAgain(3, number), 'L_HEEL', { up: heelMm });
  writeFileSync(join(folder, `static ${number}.c3d`), writeC3d(stillContents(body, { frames: 60 })));
}

const headline = () => page.locator('h1').first();
const shows = (number: number) => page.locator(`.live[data-capture="${number}.1"]`).waitFor();

describe.skipIf(browser === null)('the live page in a browser', () => {
  it('shows each capture as it is finished, announces it and asks for nothing from elsewhere', async () => {
    expect(await headline().textContent()).toBe('No standing trial yet');
    capture(1, -20);
    await shows(1);
    expect(await headline().textContent()).toBe('1 step to do before walking.');
    capture(2, -12);
    await shows(2);
    expect(await page.locator('.compared').textContent()).toContain('moved 8 mm up of the 20 mm asked; 12 mm remain');
    expect(await page.locator('#announcement').textContent()).toMatch(/^Capture 2\. 1 step to do before walking\./);
    expect(await page.title()).toBe('2: 1 step to do before walking.');
    expect(faults).toEqual([]);
    expect([...new Set(asked)].sort()).toEqual(
      ['', 'events', 'live', 'live-page.css', 'live-page.js'].map((path) => `${watch.address}${path}`),
    );
  });

  it('stays where the reader is, with what they opened, and says that there is something new on top', async () => {
    capture(1, -20);
    await shows(1);
    const passed = page.locator('details').first();
    await passed.locator('summary').click();
    const place = await page.evaluate(() => {
      window.scrollTo(0, 1200);
      return window.scrollY;
    });
    expect(place).toBeGreaterThan(1000);
    capture(2, -20);
    await shows(2);
    expect(await passed.getAttribute('open')).not.toBeNull();
    expect(await page.evaluate(() => window.scrollY)).toBe(place);
    expect(await page.locator('#fresh').textContent()).toBe('New on top: 2: 1 step to do before walking.');
    await page.locator('#fresh').click();
    await page.locator('#fresh').waitFor({ state: 'hidden' });
    expect(await page.evaluate(() => window.scrollY)).toBe(0);
  });

  it('opens the whole report of an earlier capture by keyboard', async () => {
    capture(1, -20);
    await shows(1);
    capture(2, 0);
    await shows(2);
    await page.locator('#strip-1').focus();
    await page.keyboard.press('Enter');
    await page.waitForURL('**/capture/1');
    expect(await headline().textContent()).toBe('1 step to do before walking.');
    expect(await page.evaluate(() => getComputedStyle(document.querySelector('.report h1')!).fontWeight)).toBe('700');
    await page.goBack();
    await page.locator('.live[data-capture="2.1"]').waitFor();
    expect(faults).toEqual([]);
  });

  it('says when it is cut off, and finds its way back', async () => {
    const port = Number(new URL(watch.address).port);
    await watch.close();
    await page.locator('#connection').waitFor({ state: 'visible', timeout: 20_000 });
    expect(await page.locator('#connection').textContent()).toMatch(
      /^Not connected: what stands here may be out of date/,
    );
    watch = await start(port);
    await page.locator('#connection').waitFor({ state: 'hidden', timeout: 20_000 });
    capture(1, -20);
    await shows(1);
    expect(await headline().textContent()).toBe('1 step to do before walking.');
  });

  it('has no serious fault of access, waiting and with three captures', async () => {
    const axe = readFileSync(new URL('../../node_modules/axe-core/axe.min.js', import.meta.url), 'utf8');
    const faultsOfAccess = async () => {
      await page.evaluate(axe);
      return page.evaluate(async () => {
        // biome-ignore lint/suspicious/noExplicitAny: left behind by the script above.
        const { violations } = await (globalThis as any).axe.run();
        return violations
          .filter(({ impact }: { impact: string }) => impact === 'serious' || impact === 'critical')
          .map(({ id, nodes }: { id: string; nodes: { html: string }[] }) => `${id}: ${nodes[0]!.html}`);
      });
    };
    expect(await faultsOfAccess()).toEqual([]);
    for (const [number, heelMm] of [
      [1, -20],
      [2, -16],
      [3, -12],
    ] as const) {
      capture(number, heelMm);
      await shows(number);
    }
    expect(await page.locator('.stop').textContent()).toContain('2 corrections made: stop here');
    expect(await faultsOfAccess()).toEqual([]);
  });

  it.each([
    [1280, 800],
    [390, 844],
    [1920, 1080],
  ])('fits a screen of %d by %d without scrolling sideways', async (width, height) => {
    await page.setViewportSize({ width, height });
    capture(1, -20);
    await shows(1);
    capture(2, -12);
    await shows(2);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    const found = await headline().boundingBox();
    expect(found!.y + found!.height).toBeLessThan(height);
  });
});
