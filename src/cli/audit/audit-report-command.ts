import { analyse } from '../../audit/analysis/analyse.ts';
import type { CommandContext } from '../command-context.ts';
import { type AuditOutputOptions, checkOutputOptions, exportRows, printAudit } from './audit-output.ts';
import { withParts } from './with-parts.ts';

export type AuditReportOptions = Omit<AuditOutputOptions, 'showNames'>;

/**
 * Reports on parts as if one audit had made them.
 * @throws {UsageError | InputError} where a part or the output cannot be used.
 */
export async function auditReportCommand(
  parts: readonly string[],
  options: AuditReportOptions,
  context: CommandContext,
): Promise<number> {
  checkOutputOptions(options);
  return withParts(parts, context.channels, async (rows) => {
    await exportRows(rows, options, context.channels);
    const report = await analyse(rows, { mostReexaminations: options.most });
    context.signal.throwIfAborted();
    return printAudit(report, options, context);
  });
}
