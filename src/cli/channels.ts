import { escapeControls } from '../core/report/escape-controls.ts';
import { describeSystemError } from '../node/describe-system-error.ts';
import type { Io, Writable } from './io.ts';

/**
 * The two ways out: the report to standard output, sentences to standard error. A reader that has seen enough
 * (`| head`) closes the report quietly.
 */
export class Channels {
  /** False once nobody reads the report any more. */
  open = true;
  private readonly io: Io;

  constructor(io: Io) {
    this.io = io;
    guard(io.stdout);
    guard(io.stderr);
  }

  /** @throws {InputError} where standard output cannot be written, other than because its reader left. */
  async report(text: string): Promise<void> {
    if (!this.open) return;
    const error = await new Promise<Error | null | undefined>((done) => {
      this.io.stdout.write(text, done);
    });
    if (!error) return;
    this.open = false;
    const left = 'code' in error && (error.code === 'EPIPE' || error.code === 'ERR_STREAM_DESTROYED');
    if (!left) throw describeSystemError('Cannot write the report to standard output', error);
  }

  /** Where sentences go, for what draws there itself. */
  get sentences(): Writable {
    return this.io.stderr;
  }

  /** One sentence to standard error. */
  say(sentence: string): void {
    this.io.stderr.write(`setsquare: ${escapeControls(sentence)}\n`);
  }

  /** Where a fault arose, for whoever looks for it. */
  trace(error: unknown): void {
    for (let link = error; link instanceof Error; link = link.cause) {
      const lines = (link.stack ?? link.message).split('\n');
      this.io.stderr.write(`${lines.map(escapeControls).join('\n')}\n`);
    }
  }
}

const guarded = new WeakSet<Writable>();

/** Without a listener a failed write would end the process; each write hears of its own failure. */
function guard(stream: Writable): void {
  if (guarded.has(stream)) return;
  guarded.add(stream);
  stream.on?.('error', () => {});
}
