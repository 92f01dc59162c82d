import { counted } from '../../core/report/counted.ts';
import { fixed } from '../../core/report/rounding.ts';
import { sentence } from '../../core/report/sentence.ts';
import { type TextOptions, TextPage } from '../../core/report/text-page.ts';
import type { ReaderAgreement, SampleReport } from './compare-readers.ts';
import type { DrawnSample } from './draw-sample.ts';

/** Pairs under which a kappa says little, however it comes out. */
const fewPairs = 20;

/** The reading list for a person: what was drawn, how, and what to do with it. */
export function formatDrawnSample(
  sample: DrawnSample,
  pathOf: ReadonlyMap<string, string>,
  options: TextOptions,
): string {
  const page = new TextPage(options);
  page.paragraph(`${counted(sample.trials.length, 'trial')} to read, drawn with seed ${sample.seed}.`, { ink: 'bold' });
  page.blank();
  const strata = sample.strata.map(
    ({ assessor, of, drawn }) => `${assessor === '' ? 'no assessor' : assessor} ${drawn} of ${of}`,
  );
  page.paragraph(`${strata.join('; ')}. The list names neither the assessor nor what setsquare found.`);
  page.heading('Reading list');
  sample.trials.forEach(({ trial, subject, on, sha256 }, index) => {
    const path = pathOf.get(sha256);
    page.paragraph(
      `${trial}, ${subject ?? 'no subject code'}, ${on ?? 'no day'}${path === undefined ? '' : `, ${path}`}`,
      {
        indent: 2,
        lead: `${index + 1}. `,
      },
    );
  });
  page.blank();
  page.paragraph(
    'As a table to fill in: --format csv --output list.csv. Verdicts are ready, adjust or not-assessable; read it back with audit sample --verdicts list.csv.',
  );
  return page.toString();
}

/** Agreement and non-conformances. */
export function formatSampleReport(report: SampleReport, options: TextOptions): string {
  const page = new TextPage(options);
  const read = report.readers.map((one) => `${one.reader} read ${one.read}`).join(', ');
  page.paragraph(report.readers.length === 0 ? 'No verdict was given.' : sentence(read), { ink: 'bold' });
  if (report.unread > 0) page.paragraph(`${counted(report.unread, 'trial')} of the lists left without a verdict.`);
  if (report.unknown.length > 0) page.paragraph(`Not in this archive: ${report.unknown.join(', ')}.`);
  for (const [title, agreements] of [
    ['Agreement with setsquare', report.withTool],
    ['Agreement between readers', report.betweenReaders],
  ] as const) {
    if (agreements.length === 0) continue;
    page.heading(title);
    for (const agreement of agreements) writeAgreement(page, agreement);
  }
  if (report.nonConformances.length > 0) page.heading(`Non-conformances (${report.nonConformances.length})`);
  for (const { trial, reader, says, correctiveAction, due, closed, state } of report.nonConformances) {
    page.paragraph(says, { indent: 2, lead: `${trial}, ${reader}, ${state}: ` });
    page.paragraph(
      `${correctiveAction === '' ? 'none written down' : correctiveAction}; due ${due ?? '-'}, closed ${closed ?? '-'}`,
      {
        indent: 4,
        lead: 'Action: ',
      },
    );
  }
  return page.toString();
}

function writeAgreement(
  page: TextPage,
  { first, second, count, observed, kappa, interval, disagreements }: ReaderAgreement,
): void {
  if (count === 0) {
    page.paragraph('no trial in common', { indent: 2, lead: `${first} and ${second}: ` });
    return;
  }
  const few = count < fewPairs ? `; ${count} trials are few, so this says little` : '';
  const by =
    kappa === null
      ? 'kappa has no value, as only one verdict was ever given'
      : `kappa ${fixed(2, kappa)} (95 % interval ${fixed(2, interval![0])} to ${fixed(2, interval![1])})`;
  page.paragraph(`${count - disagreements.length} of ${count} alike (${fixed(0, observed * 100)} %), ${by}${few}`, {
    indent: 2,
    lead: `${first} and ${second}: `,
  });
  for (const disagreement of disagreements)
    page.paragraph(`${first} ${disagreement.first}, ${second} ${disagreement.second}`, {
      indent: 4,
      lead: `${disagreement.trial}: `,
    });
}
