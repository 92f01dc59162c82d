import { formatSheet } from '../core/measurement-sheet/format-sheet.ts';
import { checkSheet } from '../core/measurements/check-sheet.ts';
import { jsonText } from '../core/report/json-text.ts';
import type { CommandContext } from './command-context.ts';
import { readSession } from './read-inputs.ts';

export interface MeasurementsOptions {
  readonly format: 'text' | 'json';
}

/**
 * Checks the hand measurements of a session by themselves, before any capture.
 * @returns 0 where no reading is to be taken again, 1 where one is
 * @throws {UsageError | InputError} where the session cannot be used
 */
export async function measurementsCommand(
  path: string,
  { format }: MeasurementsOptions,
  context: CommandContext,
): Promise<number> {
  const session = await readSession(await context.engine.check(), path);
  const findings = checkSheet(session);
  await context.channels.report(
    format === 'json'
      ? jsonText({ format: 'setsquare-measurements/1', subject: { code: session.subject.code }, findings })
      : formatSheet(session, findings, { columns: context.columns, color: context.color(undefined) }),
  );
  return findings.some(({ status }) => status === 'repeat') ? 1 : 0;
}
