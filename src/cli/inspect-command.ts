import { C3dError } from '../core/c3d/c3d-error.ts';
import type { Inspection } from '../core/inspect-trial.ts';
import { jsonLine, jsonText } from '../core/report/json-text.ts';
import { ownName } from '../core/report/own-name.ts';
import { InputError } from '../node/input-error.ts';
import { readTrialFile } from '../node/read-trial-file.ts';
import type { CommandContext } from './command-context.ts';
import { formatInspection } from './format-inspection.ts';

export interface InspectOptions {
  readonly format: 'text' | 'json' | 'jsonl';
}

/** What stands in the place of an inspection where the file gave none. */
interface NotInspected {
  readonly path: string;
  readonly error: { readonly code: string; readonly message: string; readonly byteOffset: number | null };
}

/** Says what each file holds, whatever marker set it was made for. Returns 2 where any file could not be decoded. */
export async function inspectCommand(
  trials: readonly string[],
  { format }: InspectOptions,
  context: CommandContext,
): Promise<number> {
  const { channels, signal } = context;
  const { inspectTrial } = await context.engine.inspect();
  const results: (Inspection | NotInspected)[] = [];
  let exitCode = 0;
  let printed = 0;
  for (const path of trials) {
    signal.throwIfAborted();
    if (!channels.open) break;
    const result = await inspectOne(path, inspectTrial, context);
    signal.throwIfAborted();
    if ('error' in result) {
      exitCode = 2;
      channels.say(`${ownName(path)}: ${result.error.message}`);
    }
    if (format === 'json') results.push(result);
    else if (format === 'jsonl') await channels.report(jsonLine(result));
    else if (!('error' in result)) {
      await channels.report((printed++ === 0 ? '' : '\n') + formatInspection(result, context.columns));
    }
  }
  if (format === 'json') await channels.report(jsonText(results.length === 1 ? results[0] : results));
  return exitCode;
}

async function inspectOne(
  path: string,
  inspectTrial: (bytes: Uint8Array, path: string) => Inspection,
  { channels, debug }: CommandContext,
): Promise<Inspection | NotInspected> {
  try {
    const { bytes } = await readTrialFile(path);
    return inspectTrial(bytes, path);
  } catch (error) {
    if (debug) channels.trace(error);
    return { path, error: describe(error) };
  }
}

function describe(error: unknown): NotInspected['error'] {
  if (error instanceof C3dError) return { code: error.code, message: error.message, byteOffset: error.byteOffset };
  if (error instanceof InputError) return { code: 'file-unreadable', message: error.message, byteOffset: null };
  const message = error instanceof Error ? error.message : String(error);
  return {
    code: 'program-fault',
    message: `The inspection stopped at a fault of the program: ${message}; report it with the output of --debug.`,
    byteOffset: null,
  };
}
