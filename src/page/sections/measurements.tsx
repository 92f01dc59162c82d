import { sayValue } from '../../core/measurements/measure-words.ts';
import type { Report } from '../../core/report/report.ts';
import { sentence } from '../../core/report/sentence.ts';
import { Heading, type Level } from '../heading.tsx';

const words: Readonly<Record<Report['measurements'][number]['status'], string>> = {
  repeat: 'Take again',
  missing: 'Not taken',
  note: 'To know',
  confirmed: 'Found right',
};

/** What was found about the hand measurements and how they go with the markers; nothing where none were recorded. */
export function Measurements({
  report,
  id,
  level,
}: {
  readonly report: Report;
  readonly id: string;
  readonly level: Level;
}) {
  // A report of before the sheet was checked has no such field.
  const findings = report.measurements ?? [];
  const beside = report.sheetAgainstTrial ?? null;
  if (findings.length === 0 && beside === null) return null;
  return (
    <section aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        Hand measurements
      </Heading>
      {findings.length === 0 ? null : (
        <ul>
          {findings.map(({ status, says, settled, source }) => (
            <li>
              <b>{words[status]}:</b> {sentence(settled === '' ? says : `${says} It was ${settled}`)}{' '}
              <small>{sentence(source)}</small>
            </li>
          ))}
        </ul>
      )}
      {beside === null ? null : <AgainstMarkers {...beside} />}
    </section>
  );
}

/** Each reading beside what the markers let expect. */
function AgainstMarkers({ compared, notCompared }: NonNullable<Report['sheetAgainstTrial']>) {
  return (
    <>
      {compared.length === 0 ? null : (
        <table>
          <caption>
            Hand measurements against the markers: {compared.length} of {compared.length + notCompared.length} compared
          </caption>
          <thead>
            <tr>
              <th scope="col">Measurement</th>
              <th scope="col">Read</th>
              <th scope="col">Markers let expect</th>
              <th scope="col">SD</th>
              <th scope="col" />
            </tr>
          </thead>
          <tbody>
            {compared.map(({ title, measure, readMm, foretoldMm, sdMm, agrees }) => (
              <tr>
                <th scope="row">{title}</th>
                <td>{sayValue(measure, readMm)}</td>
                <td>{sayValue(measure, foretoldMm)}</td>
                <td>{sayValue(measure, sdMm)}</td>
                <td>{agrees ? 'agrees' : 'departs'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {notCompared.map(({ title, reason }) => (
        <p>
          Not compared: {title}, since {sentence(reason)}
        </p>
      ))}
    </>
  );
}
