import { once } from 'node:events';
import { join } from 'node:path';
import { packageRoot } from '../../node/package-root.ts';
import { localTime } from '../../practice/local-time.ts';
import { startPracticeServer } from '../../practice/practice-server.ts';
import type { CommandContext } from '../command-context.ts';
import { beginSession, type SessionOptions } from './begin-session.ts';
import { servedRecord } from './served-record.ts';
import { runTerminalSession } from './terminal-session.ts';

export interface PracticeOptions extends SessionOptions {
  readonly terminal?: boolean;
  readonly port: number;
}

/**
 * A practice session: on a page of this machine, or in the terminal.
 * @throws {UsageError | InputError} before anything is shown
 */
export async function practiceCommand(
  folder: string | undefined,
  options: PracticeOptions,
  context: CommandContext,
): Promise<number> {
  const now = () => localTime(new Date());
  const first = await beginSession(folder, options, now, context);
  if (options.terminal === true) {
    await runTerminalSession(first, now, context);
    return 0;
  }
  const { channels, signal } = context;
  const { seed: _, ...again } = options;
  const server = await startPracticeServer(join(packageRoot, 'dist', 'page'), options.port, {
    first,
    begin: () => beginSession(folder, again, now, context),
    ...servedRecord(options.history, options.trainee, first.set),
    now,
  });
  try {
    await channels.report(`${server.address}\n`);
    channels.say('open this address in a browser of this computer; Ctrl-C ends it.');
    if (!signal.aborted) await once(signal, 'abort');
    signal.throwIfAborted();
    return 0;
  } finally {
    await server.close();
  }
}
