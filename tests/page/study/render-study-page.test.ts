import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildDemoStudy } from '../../../sample-trials/demo-study.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { standTrial } from '../../../src/core/stand-trial.ts';
import { analyseStudy, type ReadCapture } from '../../../src/core/study/analyse-study.ts';
import { parseStudy } from '../../../src/core/study/parse-study.ts';
import { renderStudyPage } from '../../../src/page/study/render-study-page.tsx';
import { startBrowser } from '../../support/browser.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

const started = await startBrowser();
const skipped = 'reason' in started ? ` (skipped: ${started.reason})` : '';
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

function pageOfDemo(): string {
  const files = new Map([...buildDemoStudy(6)].map(({ path, content }) => [path, content]));
  const design = parseStudy(files.get('study.json') as string);
  const read = design.captures.map(({ subject, assessor, session, on, trial }): ReadCapture => {
    const stood = standTrial(files.get(trial) as Uint8Array, wands22, emptySession, null);
    if (!('body' in stood)) throw new Error(`Nobody stands in ${trial}.`);
    return { sha256: trial, capture: { subject, assessor, session, on, body: stood.body, recorded: stood.session } };
  });
  return renderStudyPage(analyseStudy(design, wands22, read));
}

describe.skipIf('reason' in started)(`the page of a study in a browser${skipped}`, () => {
  let page: Page;
  const html = pageOfDemo();
  const asked: string[] = [];
  const faults: string[] = [];
  beforeAll(async () => {
    page = await ('browser' in started ? started.browser : null)!.newPage();
    page.on('console', (message) => faults.push(message.text()));
    page.on('pageerror', (error) => faults.push(String(error)));
    await page.route('**/*', (route) => {
      asked.push(route.request().url());
      return route.fulfill({ contentType: 'text/html; charset=utf-8', body: html });
    });
  });
  afterAll(async () => {
    if ('close' in started) await started.close();
  });

  it.each([
    { width: 1280, height: 800 },
    { width: 390, height: 844 },
    { width: 1920, height: 1080 },
  ])('fits $width x $height, asks for nothing, and has no barrier that axe finds', async (size) => {
    asked.length = 0;
    await page.setViewportSize(size);
    await page.goto('http://127.0.0.1/study.html');
    const overflow = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(overflow).toBe(0);
    await page.evaluate(axe);
    // biome-ignore lint/suspicious/noExplicitAny: axe comes as a script.
    const { violations } = await page.evaluate(() => (globalThis as any).axe.run());
    expect(violations.map(({ id }: { id: string }) => id)).toEqual([]);
    expect(asked).toEqual(['http://127.0.0.1/study.html']);
    expect(faults).toEqual([]);
  });
});
