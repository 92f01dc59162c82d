import { writeOutputAtomically } from '../node/write-output-atomically.ts';
import { renderWorksheet } from '../page/worksheet/render-worksheet.tsx';
import type { CommandContext } from './command-context.ts';
import { readMarkerSet, readSession } from './read-inputs.ts';

export interface WorksheetOptions {
  readonly session?: string;
  readonly output?: string;
}

/**
 * Prints a worksheet for preparing a patient, as one HTML page for paper.
 * @throws {UsageError | InputError} where marker set or session cannot be used
 */
export async function worksheetCommand(
  nameOrPath: string,
  { session, output }: WorksheetOptions,
  context: CommandContext,
): Promise<number> {
  const engine = await context.engine.check();
  const set = await readMarkerSet(engine, nameOrPath);
  const page = renderWorksheet(set, await readSession(engine, session));
  if (output === undefined) await context.channels.report(page);
  else await writeOutputAtomically(output, page);
  return 0;
}
