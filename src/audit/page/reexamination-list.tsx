import { Section } from '../../page/section.tsx';
import type { AuditReport, Reexamination } from '../analysis/audit-report.ts';
import { whoAndWhen, whoAndWhenColumns } from '../report/audit-words.ts';

/** As many as are read at one go; the others are folded. */
const mostAtOnce = 20;

/** Trials to look at again, each with its reason and, where one was written, a link to its page. */
export function ReexaminationList({ reexamine: { total, listed } }: Pick<AuditReport, 'reexamine'>) {
  if (total === 0) return null;
  const rest = listed.slice(mostAtOnce);
  return (
    <Section id="reexamine" title={`Trials to look at again (${total})`}>
      {listed.length < total ? <p class="small">{`The ${listed.length} worst are listed.`}</p> : null}
      <Trials trials={listed.slice(0, mostAtOnce)} from={1} />
      {rest.length === 0 ? null : (
        <details>
          <summary>{`${rest.length} more`}</summary>
          <Trials trials={rest} from={mostAtOnce + 1} />
        </details>
      )}
    </Section>
  );
}

function Trials({ trials, from }: { readonly trials: readonly Reexamination[]; readonly from: number }) {
  return (
    <table>
      <thead>
        <tr>
          <th scope="col" class="amount">
            No
          </th>
          <th scope="col">{whoAndWhenColumns}</th>
          <th scope="col">Why</th>
        </tr>
      </thead>
      <tbody>
        {trials.map((trial, index) => (
          <tr>
            <td class="amount">{from + index}</td>
            <td>
              {trial.page === null ? whoAndWhen(trial) : <a href={trial.page}>{whoAndWhen(trial)}</a>}
              {trial.path === null ? null : <span class="said">{trial.path}</span>}
            </td>
            <td>{trial.reason}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Files that could not be read as trials, with the reason. */
export function UnreadableList({ unreadable: { total, listed } }: Pick<AuditReport, 'unreadable'>) {
  if (total === 0) return null;
  return (
    <Section id="unreadable" title={`Files that could not be read (${total})`}>
      <ul>
        {listed.map(({ trial, path, reason }) => (
          <li>{`${trial}${path === null ? '' : `, ${path}`}: ${reason}`}</li>
        ))}
        {listed.length < total ? <li>{`and ${total - listed.length} more`}</li> : null}
      </ul>
    </Section>
  );
}
