import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Report } from '../../src/core/report/report.ts';
import { renderReportPage, renderReportsPage } from '../../src/page/render-report-page.tsx';
import { startBrowser } from '../support/browser.ts';
import { reportOf } from './report-of.ts';

const started = await startBrowser();
const skipped = 'reason' in started ? ` (skipped: ${started.reason})` : '';
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const address = 'http://127.0.0.1/report.html';
const sizes = [
  { width: 1280, height: 800 },
  { width: 1920, height: 1080 },
  { width: 390, height: 844 },
];

/** Three faults in three regions of the body, a trial to relabel, one with nothing to do, one to stand again for. */
const shown = ['heel-low', 'sacral-high', 'wand-forward', 'epicondyles-swapped', 'adult-well-placed', 'knee-bent'];

/** More steps than any other page has: as many as are told at once. */
function threeSteps(): Report {
  const report = reportOf('turned-wands-both-sides');
  const [left, right] = report.moves;
  return { ...report, moves: [left!, right!, { ...reportOf('sacral-high').moves[0]!, step: 3, dependsOn: [1, 2] }] };
}

describe.skipIf('reason' in started)(`a report in a browser${skipped}`, () => {
  let page: Page;
  let asked: string[];
  let faults: string[];
  beforeAll(async () => {
    page = await ('browser' in started ? started.browser : null)!.newPage();
    page.on('console', (message) => faults.push(message.text()));
    page.on('pageerror', (error) => faults.push(String(error)));
  });
  afterAll(async () => {
    if ('close' in started) await started.close();
  });

  async function open(html: string, size = sizes[0]!): Promise<void> {
    asked = [];
    faults = [];
    await page.unrouteAll();
    await page.route('**/*', (route) => {
      asked.push(route.request().url());
      return route.fulfill({ contentType: 'text/html; charset=utf-8', body: html });
    });
    await page.setViewportSize(size);
    await page.goto(address);
  }

  const fontSizes = (selector: string) =>
    page.locator(selector).evaluateAll((all) => all.map((one) => Number.parseFloat(getComputedStyle(one).fontSize)));

  it.each(sizes)(
    'fits $width x $height: nothing runs over the side, and text that is cut off is none',
    async (size) => {
      for (const sample of shown) {
        await open(renderReportPage(reportOf(sample)), size);
        const wider = await page.evaluate(() =>
          [...document.querySelectorAll('body *')]
            .filter(
              (one) =>
                !one.closest('svg') && !one.matches('.skip') && one.getBoundingClientRect().right > innerWidth + 0.5,
            )
            .map((one) => one.className || one.tagName),
        );
        expect(wider, sample).toEqual([]);
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(size.width);
      }
    },
  );

  it.each(sizes)('keeps distances within their pictures at $width x $height', async (size) => {
    for (const sample of ['heel-low', 'sacral-high', 'wand-forward']) {
      await open(renderReportPage(reportOf(sample)), size);
      const [text, picture] = await Promise.all(
        ['.region text.distance', '.region > svg'].map((selector) => page.locator(selector).first().boundingBox()),
      );
      expect(text!.x).toBeGreaterThan(picture!.x);
      expect(text!.x + text!.width).toBeLessThan(picture!.x + picture!.width);
      expect(text!.y).toBeGreaterThan(picture!.y);
      expect(text!.y + text!.height).toBeLessThan(picture!.y + picture!.height);
    }
  });

  it('is to be read from two metres: at 1280 what was found, which marker, which way and how far in 28 px or more', async () => {
    for (const sample of ['heel-low', 'sacral-high', 'wand-forward']) {
      await open(renderReportPage(reportOf(sample)));
      for (const selector of ['h1', '.action', '.who', '.way', '.way b']) {
        const found = await fontSizes(selector);
        expect(found.length, selector).toBeGreaterThan(0);
        expect(Math.min(...found), selector).toBeGreaterThanOrEqual(28);
      }
      // And without scrolling: the order and its picture are on the first screen.
      for (const selector of ['h1', '.way', '.region > svg']) {
        const box = await page.locator(selector).first().boundingBox();
        expect(box!.y + box!.height, `${sample} ${selector}`).toBeLessThan(sizes[0]!.height);
      }
    }
  });

  it('asks for nothing, runs nothing, and breaks no rule of its policy', async () => {
    for (const sample of shown) {
      await open(renderReportPage(reportOf(sample)));
      expect(asked).toEqual([address]);
      expect(faults).toEqual([]);
      expect(await page.evaluate(() => document.styleSheets.length)).toBe(1);
      expect(await page.evaluate(() => getComputedStyle(document.body).margin)).toBe('0px');
    }
  });

  it('shows hostile text as text', async () => {
    const evil = '<img src=x onerror="window.hacked=1"><script>window.hacked=2</script>';
    const report = reportOf('heel-low');
    const rules = report.rules.map((rule) => ({ ...rule, title: evil, says: evil, reason: evil }));
    const moves = report.moves.map((move) => ({ ...move, called: evil, why: evil }));
    await open(renderReportPage({ ...report, rules, moves, subject: { code: evil } }));
    expect(await page.evaluate(() => 'hacked' in window)).toBe(false);
    expect(await page.locator('.who').textContent()).toContain('<img src=x');
    expect(await page.locator('img, script').count()).toBe(0);
    expect(asked).toEqual([address]);
  });

  it('goes by keyboard from what opens to what opens, in the order in which it is read', async () => {
    await open(renderReportPage(reportOf('heel-low')));
    const stops: string[] = [];
    for (let press = 0; press < 4; press++) {
      await page.keyboard.press('Tab');
      stops.push(
        await page.evaluate(() => `${document.activeElement?.tagName} ${document.activeElement?.textContent}`),
      );
    }
    expect(stops[0]).toContain('A Skip to the report');
    expect(stops[1]).toMatch(/^SUMMARY Passed, as the protocol/);
    expect(stops[2]).toMatch(/^SUMMARY Passed, as bodies/);
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Enter');
    expect(
      await page
        .locator('details')
        .first()
        .evaluate((one) => (one as HTMLDetailsElement).open),
    ).toBe(true);
    expect(await page.locator('details table').first().isVisible()).toBe(true);
  });

  it('goes from the list of several trials to each', async () => {
    await open(renderReportsPage([reportOf('heel-low'), reportOf('adult-well-placed')]));
    await page.locator('.trials a').nth(1).focus();
    await page.keyboard.press('Enter');
    const top = await page.locator('#report-2').evaluate((one) => one.getBoundingClientRect().top);
    expect(Math.abs(top)).toBeLessThan(60);
  });

  it('prints the summary on one page of A4, however many steps, and unfolds what is folded', async () => {
    // A4 without margins of 12 mm, at 96 px an inch.
    const paper = { width: Math.floor((186 / 25.4) * 96), height: Math.floor((273 / 25.4) * 96) };
    for (const report of [...shown.map((sample) => reportOf(sample)), threeSteps()]) {
      await open(renderReportPage(report), paper);
      await page.emulateMedia({ media: 'print' });
      const summary = await page.locator('.summary').boundingBox();
      expect(summary!.height, report.moves.map(({ marker }) => marker).join()).toBeLessThanOrEqual(paper.height);
      expect(
        await page
          .locator('details table')
          .first()
          .boundingBox()
          .then((box) => box!.height),
      ).toBeGreaterThan(50);
      await page.emulateMedia({ media: 'screen' });
    }
  });

  it.each(['heel-low', 'sacral-high', 'epicondyles-swapped', 'knee-bent', 'restless-child', 'marker-missing'])(
    'has no barrier that axe finds: %s',
    async (sample) => {
      // The policy of the page lets no script in: axe looks at the same page without it.
      await open(renderReportPage(reportOf(sample)).replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, ''));
      await page.evaluate(axe);
      const found = await page.evaluate(async () => {
        const { violations } = await (
          globalThis as unknown as {
            axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
          }
        ).axe.run();
        return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 90)).join(' | ')}`);
      });
      expect(found).toEqual([]);
    },
  );
});
