import type { CommandContext } from '../command-context.ts';
import { beginSession, type SessionOptions } from './begin-session.ts';
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
  const now = () => new Date().toISOString();
  const run = await beginSession(folder, options, now, context);
  await runTerminalSession(run, now, context);
  return 0;
}
