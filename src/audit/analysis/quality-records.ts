import type { AuditReport, QualityRecord } from './audit-report.ts';

/**
 * What the store can show of the records that an accreditor's audit asks for, and what it cannot. The list follows the
 * headings of published laboratory standards (CMAS standards, contents read; general practice of quality systems): tick
 * it against your accreditor's own list.
 * @param recordings that could be read
 */
export function qualityRecords(
  recordings: number,
  missing: AuditReport['missing'],
  versions: AuditReport['versions'],
): QualityRecord[] {
  const of = (count: number): string => `${recordings - count} of ${recordings} recordings`;
  const sets = new Set(versions.map(({ hash }) => hash)).size;
  return [
    part(
      'Identity of each trial',
      `Hash of the content: all. Subject code: ${of(missing.subject)}; day: ${of(missing.day)}; site: ${of(missing.site)}. Rate and number of frames. Names of files with --show-names only. Not kept: time of day, capture system, units, which frames were judged.`,
    ),
    part(
      'People',
      `Code of who palpated: ${of(missing.assessor)}. Not kept: second checker, operator, grade, last sign-off of competence, last study of repeatability.`,
    ),
    part(
      'Protocol',
      `Marker sets with version and hash: ${sets}; they hold marker diameters and wand lengths. Model and regressions go with the version of setsquare. Not kept: version of the written placement protocol.`,
    ),
    part(
      'Hand measurements',
      `They stay in the session files (${of(missing.session)} have one): values with unit and side, repeat readings, and who, instrument and posture where written. The store keeps the hash of each session and no value. Not kept: calibration of instruments, why a value was estimated, changes over time.`,
    ),
    part(
      'Facts of the patient that alter rules',
      `Age, sex and which facts the session file records: ${of(missing.session)} have one. Not kept: height, mass, condition of the skin.`,
    ),
    part(
      'Result of the check',
      'Every rule with value, limit, uncertainty and status, or that it could not be judged. The source of each limit stands in the marker set, why a rule could not be judged in the report of the trial.',
    ),
    part(
      'Action taken',
      'What was asked for: marker, direction, distance; and which rules were accepted. Reason and name of an acceptance stand in the session file. Not kept: whether a marker was moved or the trial repeated, other than by the next capture.',
    ),
    part(
      'Missing and exchanged markers',
      'Which, in each recording. Not kept: in which frames, whether gaps were filled, who decided.',
    ),
    { record: 'Study of repeatability', shown: 'no', says: 'Belongs to a study of its own.' },
    {
      record: 'Equipment',
      shown: 'no',
      says: 'Calibration, volume checks and service are recorded by the laboratory.',
    },
    part(
      'Trend',
      'Charts by assessor, site and construction rule, with each point outside its limits. Not kept: investigation and day of closure, other than as a non-conformance of a reading list.',
    ),
    part(
      'The audit itself',
      'How the sample was drawn (number, seed, strata), verdicts of the readers, non-conformances with action, due and closure days, in the reading lists. Not kept: who audited, independence, undertaking of confidentiality.',
    ),
    part(
      'Control of documents',
      'Version of program, marker set and norms in every row. Not kept: author, approval, review day, withdrawn copies, evidence of the tests of the program.',
    ),
  ];
}

function part(record: string, says: string): QualityRecord {
  return { record, shown: 'in part', says };
}
