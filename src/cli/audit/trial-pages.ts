import { mkdir } from 'node:fs/promises';
import { dirname, join, relative } from 'node:path';
import type { AuditReport, Reexamination } from '../../audit/analysis/audit-report.ts';
import type { AuditInputs } from '../../audit/check/audit-inputs.ts';
import { checkOneTrial } from '../../audit/check/check-one-trial.ts';
import { describeSystemError } from '../../node/describe-system-error.ts';
import { writeOutputAtomically } from '../../node/write-output-atomically.ts';
import type { AuditOutputOptions } from './audit-output.ts';

/**
 * Checks the listed trials once more and writes the page of each, named for the first digits of its hash. The report
 * that comes back links to them.
 */
export async function writeTrialPages(
  report: AuditReport,
  inputs: AuditInputs,
  { output, showNames = false }: AuditOutputOptions,
  folder: string,
): Promise<AuditReport> {
  const { renderReportPage } = await import('../../page/render-report-page.tsx');
  await mkdir(folder, { recursive: true }).catch((error: unknown) => {
    throw describeSystemError(`Cannot make the folder ${folder}`, error);
  });
  const from = output === undefined ? '.' : dirname(output);
  const listed: Reexamination[] = [];
  for (const trial of report.reexamine.listed) {
    const checked = trial.path === null ? null : checkOneTrial(trial.path, inputs);
    // A file that changed since is another trial.
    if (checked === null || !checked.result.sha256.startsWith(trial.trial)) {
      listed.push(trial);
      continue;
    }
    const path = join(folder, `${trial.trial}.html`);
    await writeOutputAtomically(path, renderReportPage(checked.report, { showNames }));
    listed.push({ ...trial, page: relative(from, path).replaceAll('\\', '/') });
  }
  return { ...report, reexamine: { ...report.reexamine, listed } };
}
