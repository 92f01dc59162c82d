import type { Engine } from '../../src/cli/engine.ts';
import type { Io } from '../../src/cli/io.ts';
import { run } from '../../src/cli/run.ts';

export interface Ran {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

interface Surroundings {
  readonly env?: Record<string, string>;
  readonly isTTY?: boolean;
  readonly columns?: number;
  /** Lines that are typed. */
  readonly typed?: readonly string[];
  readonly engine?: Engine;
  /** Called with each piece of standard output; an error it returns is what the write fails with. */
  readonly onWrite?: (text: string) => Error | undefined;
  /** Receives the listener for Ctrl-C. */
  readonly onSigint?: (press: () => void) => void;
}

/** Runs a command line in this process with captured streams. */
export async function runInProcess(argv: readonly string[], surroundings: Surroundings = {}): Promise<Ran> {
  const { env = {}, isTTY = false, columns, typed, engine, onWrite, onSigint } = surroundings;
  const printed = { stdout: '', stderr: '' };
  const stream = (name: 'stdout' | 'stderr') => ({
    isTTY,
    ...(columns === undefined ? {} : { columns }),
    write(text: string, done?: (error?: Error | null) => void) {
      const error = name === 'stdout' ? onWrite?.(text) : undefined;
      if (!error) printed[name] += text;
      setImmediate(() => done?.(error ?? null));
      return true;
    },
  });
  const io: Io = {
    env,
    stdout: stream('stdout'),
    stderr: stream('stderr'),
    ...(typed === undefined ? {} : { stdin: typing(typed) }),
    once: (_event, listener) => onSigint?.(listener),
  };
  const code = await run(argv, io, engine);
  return { code, ...printed };
}

async function* typing(lines: readonly string[]): AsyncIterable<string> {
  for (const line of lines) yield `${line}\n`;
}
