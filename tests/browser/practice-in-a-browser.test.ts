import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type SiteServer, startSiteServer } from '../../src/node/site-server.ts';
import { startBrowser } from '../support/browser.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const started = await startBrowser();
const skipped = 'reason' in started ? ` (skipped: ${started.reason})` : '';

async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  const run = () => (globalThis as unknown as { axe: { run(): Promise<{ violations: { id: string }[] }> } }).axe.run();
  return (await page.evaluate(run)).violations.map(({ id }) => id);
}

describe.skipIf('reason' in started)(`practice in a browser${skipped}`, () => {
  let page: Page;
  let faults: string[];
  beforeEach(async () => {
    page = await ('browser' in started ? started.browser : null)!.newPage({
      viewport: { width: 1280, height: 800 },
      bypassCSP: true,
    });
    faults = [];
    page.on('console', (message) => faults.push(message.text()));
    page.on('pageerror', (error) => faults.push(String(error)));
  });
  afterEach(() => page.close());
  afterAll(async () => {
    if ('close' in started) await started.close();
  });

  describe('by itself', () => {
    let server: SiteServer;
    beforeAll(async () => {
      server = await startSiteServer(join(root, 'dist/page'), 0);
    });
    afterAll(() => server.close());
    beforeEach(async () => {
      await page.goto(`http://127.0.0.1:${server.port}/#practice`);
      await page.waitForSelector('text=Begin with made trials');
    });

    it('is worked by keys alone: a verdict is written, and only then something is told', async () => {
      await page.focus('text=Begin with made trials');
      await page.keyboard.press('Enter');
      await page.waitForSelector('text=Trial 1 of 8');
      await page.waitForFunction(() => document.activeElement?.id === 'trial-heading');
      expect(await page.locator('.told').count()).toBe(0);
      await page.focus('select[name=marker-0]');
      await page.keyboard.type('left heel');
      await page.keyboard.press('Tab');
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Tab');
      await page.keyboard.type('12');
      await page.keyboard.press('Enter');
      await page.waitForSelector('.told');
      await page.waitForFunction(() => document.activeElement?.id === 'told-heading');
      expect(await page.locator('.told li').first().textContent()).not.toBe('');
      expect(await violations(page)).toEqual([]);
      expect(faults).toEqual([]);
    });

    it('signs off a landmark, says why it will not, and saves the line', async () => {
      await page.fill('input[type=text]', 'AB');
      await page.click('text=Begin with made trials');
      await page.click('button:has-text("Nothing to move")');
      for (let trial = 2; trial <= 8; trial++) {
        await page.click('text=Next trial');
        await page.click('button:has-text("Nothing to move")');
      }
      await page.click('text=To the summary');
      await page.click('text=See the record');
      await page.waitForSelector('#record-heading');
      await page.selectOption('select[name=landmark]', 'C7');
      await page.fill('input[name=signer]', 'AB');
      await page.fill('input[name=due]', '2099-12-31');
      await page.click('button:has-text("Sign off")');
      await page.waitForSelector('text=AB cannot sign for AB: somebody else signs.');
      await page.fill('input[name=signer]', 'CD');
      await page.fill('input[name=reason]', '<img src=x onerror=alert(1)>');
      await page.click('button:has-text("Sign off")');
      await page.waitForSelector('td:has-text("2099-12-31")');
      expect(await page.locator('article img').count()).toBe(0);
      expect(await violations(page)).toEqual([]);
      await page.emulateMedia({ media: 'print' });
      expect(await page.locator('.sign-off').isVisible()).toBe(false);
      expect(await page.locator('.by-hand').isVisible()).toBe(true);
      await page.emulateMedia({ media: 'screen' });
      const [saved] = await Promise.all([page.waitForEvent('download'), page.click('text=Save the history')]);
      const lines = readFileSync((await saved.path())!, 'utf8')
        .trim()
        .split('\n');
      expect(lines.map((line) => JSON.parse(line).kind)).toEqual([
        'session',
        ...Array.from({ length: 8 }, () => 'answer'),
        'sign-off',
      ]);
      expect(faults).toEqual([]);
    });
  });

  describe('served', () => {
    let folder: string;
    let history: string;
    let child: ChildProcess;
    let address: string;
    beforeAll(async () => {
      folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
      history = join(folder, 'history.jsonl');
      const argv = ['bin/setsquare.js', 'practice', '--made', '--trials', '4', '--trainee', 'AB'];
      child = spawn(process.execPath, [...argv, '--history', history, '--port', '0'], { cwd: root });
      [address] = (await once(child.stdout!, 'data')).map((data) => String(data).trim()) as [string];
    });
    afterAll(async () => {
      child.kill('SIGINT');
      expect(await once(child, 'exit')).toEqual([130, null]);
      rmSync(folder, { recursive: true });
    });

    it('keeps the verdict on the disk before it tells anything, and shows the record', async () => {
      const told: string[] = [];
      page.on('response', async (response) => {
        if (response.url().includes('/practice/trial')) told.push(await response.text());
      });
      await page.goto(address);
      await page.waitForSelector('text=Trial 1 of 4');
      expect(existsSync(history)).toBe(false);
      expect(told).toHaveLength(1);
      expect(told[0]).not.toMatch(/expected|accepted|planted|verdict|moves/);
      await page.click('button:has-text("Nothing to move")');
      await page.waitForSelector('.told');
      const kept = readFileSync(history, 'utf8')
        .trim()
        .split('\n')
        .map((line) => JSON.parse(line));
      expect(kept.map(({ kind }) => kind)).toEqual(['session', 'answer']);
      for (let trial = 2; trial <= 4; trial++) {
        await page.click('text=Next trial');
        await page.click('button:has-text("Nothing to move")');
      }
      await page.click('text=To the summary');
      await page.click('text=See the record');
      await page.waitForSelector('text=Practice record of AB');
      expect(await page.locator('article').textContent()).toContain('By chance: naming nothing throughout');
      expect(await violations(page)).toEqual([]);
      expect(faults).toEqual([]);
    });
  });
});
