import type { Report } from '../../core/report/report.ts';
import { sentence } from '../../core/report/sentence.ts';
import { Heading, type Level } from '../heading.tsx';

const words: Readonly<Record<Report['measurements'][number]['status'], string>> = {
  repeat: 'Take again',
  missing: 'Not taken',
  note: 'To know',
  confirmed: 'Found right',
};

/** What was found about the hand measurements; nothing where they are well, or none were recorded. */
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
  if (findings.length === 0) return null;
  return (
    <section aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        Hand measurements
      </Heading>
      <ul>
        {findings.map(({ status, says, settled, source }) => (
          <li>
            <b>{words[status]}:</b> {sentence(settled === '' ? says : `${says} It was ${settled}`)}{' '}
            <small>{sentence(source)}</small>
          </li>
        ))}
      </ul>
    </section>
  );
}
