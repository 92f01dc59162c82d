import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

export interface LaunchedBrowser {
  readonly browser: Browser;
  close(): Promise<void>;
}

/**
 * Starts the Chromium that comes packed inside an npm package (docs/decisions/browser-tests.md). It unpacks itself into a
 * folder of its own, removed in the end, so that two runs never use one half-unpacked file.
 */
export async function launchBrowser(): Promise<LaunchedBrowser> {
  const folder = mkdtempSync(join(tmpdir(), 'setsquare-browser-'));
  const usual = process.env.TMPDIR;
  process.env.TMPDIR = folder;
  try {
    const { default: packed } = await import('@sparticuz/chromium');
    packed.setGraphicsMode = false;
    const browser = await chromium.launch({
      executablePath: await packed.executablePath(),
      args: [
        // In one process it ends with the first page that is closed.
        ...packed.args.filter((flag) => flag !== '--single-process'),
        ...['--disable-gpu', '--disable-background-networking', '--disable-component-update'],
      ],
    });
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
