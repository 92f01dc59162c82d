import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

export interface TestBrowser {
  readonly browser: Browser;
  close(): Promise<void>;
}

/** Names under which an installed browser is looked for. */
const installedNames = ['google-chrome', 'google-chrome-stable', 'chromium', 'chromium-browser'];

const quiet = ['--disable-gpu', '--disable-background-networking', '--disable-component-update', '--no-sandbox'];

/**
 * An installed Chrome or Chromium, else the one that comes packed inside an npm package. Null with the reason where
 * neither starts: such tests are then skipped, and say so; with CI=true they fail.
 */
export async function startBrowser(): Promise<TestBrowser | { readonly reason: string }> {
  const reasons: string[] = [];
  for (const start of [startInstalled, startPacked]) {
    try {
      const started = await start();
      if (started !== null) return started;
    } catch (error) {
      reasons.push(String(error).split('\n')[0]!);
    }
  }
  const reason = `no Chromium starts here: ${reasons.join('; ')}`;
  if (process.env.CI === 'true') throw new Error(reason);
  return { reason };
}

async function startInstalled(): Promise<TestBrowser | null> {
  const executablePath = installedNames.map(pathOf).find((path) => path !== '');
  if (executablePath === undefined) return null;
  const browser = await chromium.launch({ executablePath, args: quiet });
  return { browser, close: () => browser.close() };
}

function pathOf(name: string): string {
  try {
    return execFileSync('/bin/sh', ['-c', `command -v ${name}`], { encoding: 'utf8', stdio: 'pipe' }).trim();
  } catch {
    return '';
  }
}

/** It unpacks itself into the folder for temporary files: one of its own, so that two runs never share half a file. */
async function startPacked(): Promise<TestBrowser> {
  const folder = mkdtempSync(join(tmpdir(), 'setsquare-browser-'));
  const usual = process.env.TMPDIR;
  process.env.TMPDIR = folder;
  try {
    const { default: packed } = await import('@sparticuz/chromium');
    packed.setGraphicsMode = false;
    // One process for everything ends with its first page, and must not switch off what a browser protects a page by.
    const unwanted = ['--single-process', '--no-zygote', '--disable-web-security', '--allow-running-insecure-content'];
    const args = packed.args.filter((arg) => !unwanted.includes(arg));
    const browser = await chromium.launch({ executablePath: await packed.executablePath(), args: [...args, ...quiet] });
    return {
      browser,
      async close() {
        await browser.close();
        rmSync(folder, { recursive: true, force: true });
      },
    };
  } finally {
    if (usual === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = usual;
  }
}
