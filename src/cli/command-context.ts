import type { Channels } from './channels.ts';
import type { Engine } from './engine.ts';

/** What every command is handed besides its own arguments. */
export interface CommandContext {
  readonly channels: Channels;
  readonly engine: Engine;
  /** Aborted by Ctrl-C. */
  readonly signal: AbortSignal;
  readonly columns: number;
  /** Colour as the environment has it, for a flag that was given or not. */
  color(flag: boolean | undefined): boolean;
  readonly debug: boolean;
  /** Whether a person reads standard output, and standard error, as they come. */
  readonly reportIsSeen: boolean;
  readonly sentencesAreSeen: boolean;
  stdin(): AsyncIterable<Uint8Array | string>;
}
