import { once } from 'node:events';
import { join } from 'node:path';
import { packageRoot } from '../node/package-root.ts';
import { startSiteServer } from '../node/site-server.ts';
import type { CommandContext } from './command-context.ts';

export interface PageOptions {
  readonly port: number;
}

/**
 * Serves the page that checks trials in a browser, until Ctrl-C.
 * @throws {InputError} where the port cannot be had.
 */
export async function pageCommand({ port }: PageOptions, { channels, signal }: CommandContext): Promise<number> {
  const server = await startSiteServer(join(packageRoot, 'dist', 'page'), port);
  try {
    await channels.report(`http://127.0.0.1:${server.port}/\n`);
    channels.say('open this address in a browser of this computer; Ctrl-C ends it.');
    if (!signal.aborted) await once(signal, 'abort');
    signal.throwIfAborted();
    return 0;
  } finally {
    await server.close();
  }
}
