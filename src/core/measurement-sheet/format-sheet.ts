import { confirmReading, howTaken, nameReading, sayValue } from '../measurements/measure-words.ts';
import { quantitiesOf } from '../measurements/quantities.ts';
import type { SheetFinding } from '../measurements/sheet-finding.ts';
import { counted } from '../report/counted.ts';
import { sentence } from '../report/sentence.ts';
import { type TextOptions, TextPage } from '../report/text-page.ts';
import type { Session } from '../session/session.ts';

const textIndent = 5;

/** The sheet of hand measurements for whoever took them: what to take again, how, and why it is doubted. */
export function formatSheet(session: Session, findings: readonly SheetFinding[], options: TextOptions): string {
  const page = new TextPage(options);
  const of = (status: SheetFinding['status']): SheetFinding[] => findings.filter((one) => one.status === status);
  const [repeats, missing, notes, confirmed] = [of('repeat'), of('missing'), of('note'), of('confirmed')];
  page.paragraph(headline(repeats.length, missing.length), { ink: 'bold' });
  const { code, ageYears, sex } = session.subject;
  const who = [code, ageYears === null ? null : `${ageYears} years`, sex].filter((part) => part !== null);
  if (who.length > 0) page.paragraph(who.join(', '), { lead: 'Subject: ' });
  repeats.forEach(({ readings, says, source }, index) => {
    const first = readings[0]!;
    page.blank(2);
    page.paragraph(`Take the ${nameReading(first)} again.`, {
      lead: `${index + 1}. `.padStart(textIndent),
      ink: 'bold',
    });
    page.blank();
    page.paragraph(sentence(says), { indent: textIndent, lead: 'Found: ' });
    page.paragraph(sentence(capital(howTaken(first.measure))), { indent: textIndent, lead: 'How: ' });
    page.paragraph(sentence(confirmReading(first.measure)), { indent: textIndent, lead: 'Confirm: ' });
    const others = readings.slice(1).map(nameReading);
    if (others.length > 0)
      page.paragraph(`${others.join(', ')}.`, { indent: textIndent, lead: 'Then, if it stays: the ' });
    page.paragraph(sentence(capital(source)), { indent: textIndent, lead: 'Limit: ' });
  });
  writeList(page, 'Not on the sheet', missing);
  writeList(page, 'To know', notes);
  writeList(page, 'Taken again and found right', confirmed);
  const quantities = quantitiesOf(session);
  if (quantities.length > 0) {
    page.heading('On the sheet');
    page.table(
      quantities.map((quantity) => [
        capital(nameReading(quantity)),
        quantity.written.map(({ value, unit }) => `${value} ${unit}`).join(', '),
        quantity.readings.length > 1 ? `mean ${sayValue(quantity.measure, quantity.mean)}` : '',
      ]),
    );
  }
  page.blank();
  page.paragraph(
    'The bands are wide and mostly of grown people; what is found right stays, with the reason in the session file. It supports and never replaces the protocol of the laboratory.',
  );
  return page.toString();
}

function headline(repeats: number, missing: number): string {
  const again = repeats === 0 ? 'No reading to take again' : `${counted(repeats, 'reading')} to take again`;
  return missing === 0 ? `${again}.` : `${again}; ${missing} not on the sheet.`;
}

function writeList(page: TextPage, heading: string, findings: readonly SheetFinding[]): void {
  if (findings.length === 0) return;
  page.heading(heading);
  for (const { says, settled } of findings)
    page.paragraph(sentence(settled === '' ? says : `${says} It was ${settled}`), { indent: 2, lead: '- ' });
}

function capital(text: string): string {
  return `${text[0]!.toUpperCase()}${text.slice(1)}`;
}
