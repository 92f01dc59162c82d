import { sayValue } from '../measurements/measure-words.ts';
import type { Report } from './report.ts';
import { sentence } from './sentence.ts';
import type { TextPage } from './text-page.ts';

const words: Readonly<Record<Report['measurements'][number]['status'], string>> = {
  repeat: 'Take again',
  missing: 'Not taken',
  note: 'To know',
  confirmed: 'Found right',
};

/** What was found about the hand measurements, beside the steps, and how they go with the markers. */
export function writeMeasurements(page: TextPage, { measurements, sheetAgainstTrial }: Report): void {
  // What is to be taken again is a step already.
  const told = measurements.filter(({ status }) => status !== 'repeat');
  if (told.length > 0) page.heading('Hand measurements');
  for (const { status, says, settled } of told) {
    page.paragraph(sentence(settled === '' ? says : `${says} It was ${settled}`), {
      indent: 2,
      lead: `${words[status]}: `,
    });
  }
  if (sheetAgainstTrial === null) return;
  const { compared, notCompared } = sheetAgainstTrial;
  page.heading(`Hand measurements against the markers (${compared.length} of ${compared.length + notCompared.length})`);
  if (compared.length > 0) {
    page.table([
      ['', 'read', 'markers let expect', ''],
      ...compared.map(({ title, measure, readMm, foretoldMm, sdMm, agrees }) => [
        title,
        sayValue(measure, readMm),
        `${sayValue(measure, foretoldMm)}, SD ${sayValue(measure, sdMm)}`,
        agrees ? '' : 'departs',
      ]),
    ]);
  }
  const byReason = new Map<string, string[]>();
  for (const { title, reason } of notCompared) byReason.set(reason, [...(byReason.get(reason) ?? []), title]);
  for (const [reason, titles] of byReason) {
    page.paragraph(sentence(`Not compared, since ${reason}: ${titles.join('; ')}`), { indent: 2, lead: '- ' });
  }
}
