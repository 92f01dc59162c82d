import type { AuditReport, QualityRecord } from './audit-report.ts';

/**
 * What the store can show of the records that an accreditor's audit asks for, and what it cannot. The list follows the
 * headings of published laboratory standards (CMAS standards, contents read; general practice of quality systems): tick
 * it against your accreditor's own list.
 */
export function qualityRecords({
  scope,
  missing,
  versions,
}: Pick<AuditReport, 'scope' | 'missing' | 'versions'>): QualityRecord[] {
  const of = (count: number): string => `${scope.recordings - count} of ${scope.recordings} recordings`;
  return [
    part(
      'Identity of each trial',
      `Hash of the content: all. Subject code: ${of(missing.subject)}; day: ${of(missing.day)}; site: ${of(missing.site)}. Rate and frames are kept; the capture system is not.`,
    ),
    part(
      'People',
      `Assessor's code: ${of(missing.assessor)}. Not kept: second checker, grade, last sign-off of competence, last study of repeatability.`,
    ),
    part(
      'Protocol',
      `Marker set with version and hash: ${versions.length === 1 ? 'one' : versions.length} in use. Not kept: version of the written placement protocol.`,
    ),
    part(
      'Hand measurements',
      `Session files hold values with unit and side, and instrument and who measured where that was written (${of(missing.session)} have one). Not kept: calibration of instruments, changes over time.`,
    ),
    part('Facts of the patient that alter rules', `Recorded in the session file: ${of(missing.session)} have one.`),
    {
      record: 'Result of the check',
      shown: 'yes',
      says: 'Every rule with value, limit, uncertainty and status, or that it could not be judged; the source of each limit stands in the marker set.',
    },
    part(
      'Action taken',
      'What was asked for, and rules accepted with a reason and a code. Not kept: whether a marker was moved, other than by the next capture.',
    ),
    part(
      'Missing and exchanged markers',
      'Which, in each recording. Not kept: whether gaps were filled, and who decided.',
    ),
    { record: 'Study of repeatability', shown: 'no', says: 'Belongs to a study of its own.' },
    {
      record: 'Equipment',
      shown: 'no',
      says: 'Calibration, volume checks and service are recorded by the laboratory.',
    },
    part(
      'Trend',
      'Charts per assessor and construction rule, with the rule that was broken. Not kept: investigation and day of closure; a reading list takes them (audit sample).',
    ),
    part(
      'The audit itself',
      'How the sample was drawn (number, seed, strata), verdicts of the readers, non-conformances with action, due and closure days, in the reading lists. Not kept: who audited, independence, undertaking of confidentiality.',
    ),
    part(
      'Control of documents',
      'Version of program, marker set and norms in every row. Not kept: author, approval, review day, withdrawn copies.',
    ),
  ];
}

function part(record: string, says: string): QualityRecord {
  return { record, shown: 'in part', says };
}
