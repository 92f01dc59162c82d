import type { AuditReport } from '../analysis/audit-report.ts';
import { whoAndWhen } from '../report/audit-words.ts';
import { Section } from './section.tsx';

/** Trials to look at again, each with its reason and, where one was written, a link to its page. */
export function ReexaminationList({ reexamine: { total, listed } }: Pick<AuditReport, 'reexamine'>) {
  if (total === 0) return null;
  return (
    <Section id="reexamine" title={`Trials to look at again (${total})`}>
      {listed.length < total ? <p class="small">{`The ${listed.length} worst are listed.`}</p> : null}
      <table>
        <thead>
          <tr>
            <th scope="col" class="number">
              No
            </th>
            <th scope="col">Subject, trial, day, assessor, site</th>
            <th scope="col">Why</th>
          </tr>
        </thead>
        <tbody>
          {listed.map((trial, index) => (
            <tr>
              <td class="number">{index + 1}</td>
              <td>
                {trial.page === null ? whoAndWhen(trial) : <a href={trial.page}>{whoAndWhen(trial)}</a>}
                {trial.path === null ? null : <span class="said">{trial.path}</span>}
              </td>
              <td>{trial.reason}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Section>
  );
}
