import { bandsAreTotals } from '../moves/changes-words.ts';
import { skinPen } from './advice.ts';
import { counted } from './counted.ts';
import type { Move, Report } from './report.ts';
import { ruleName } from './rule-name.ts';
import { sentence } from './sentence.ts';
import { after, doubtAbout, settledElsewhere, stepsAtOnce } from './step-words.ts';
import type { TextPage } from './text-page.ts';

const textIndent = 5;

export function writeSteps(page: TextPage, report: Report): void {
  for (const move of report.moves.slice(0, stepsAtOnce)) writeStep(page, move);
  const more = report.moves.length - stepsAtOnce;
  if (more > 0) {
    page.blank(2);
    page.paragraph(`${counted(more, 'more step')}: see the list below. After these three, capture again.`, {
      indent: 2,
    });
  }
  if (report.moves.slice(0, stepsAtOnce).some(({ changes }) => (changes?.largestDeg ?? 0) > 0)) {
    page.blank();
    page.paragraph(bandsAreTotals, { indent: 2 });
  }
  if (report.stillFailing.length > 0) {
    const names = report.stillFailing.map((id) => {
      const rule = report.rules.find((candidate) => candidate.id === id);
      return rule ? ruleName(rule) : id;
    });
    page.blank();
    page.paragraph(`Still failing after every step: ${names.join('; ')}.`, { indent: 2 });
  }
}

function writeStep(page: TextPage, move: Move): void {
  page.blank(2);
  page.paragraph(sentence(move.instruction), { lead: `${move.step}. `.padStart(textIndent), ink: 'bold' });
  if (settledElsewhere(move)) page.paragraph(sentence(move.tie!.says), { indent: textIndent, ink: 'bold' });
  page.blank();
  if (move.dependsOn.length > 0) page.paragraph(after(move), { indent: textIndent });
  if (move.action === 'move' || move.action === 'palpate-again') page.paragraph(skinPen, { indent: textIndent });
  if (move.finding) page.paragraph(sentence(move.finding), { indent: textIndent, lead: 'Found: ' });
  page.paragraph(sentence(move.why), { indent: textIndent, lead: 'Why: ' });
  if (move.changes) page.paragraph(move.changes.says, { indent: textIndent, lead: 'At stake: ' });
  page.paragraph(sentence(move.confirmBy), { indent: textIndent, lead: 'Confirm: ' });
  const doubt = doubtAbout(move);
  if (doubt !== '') page.paragraph(doubt, { indent: textIndent });
}

/** Steps beyond those to do at once, one paragraph each. */
export function writeFurtherSteps(page: TextPage, report: Report): void {
  const further = report.moves.slice(stepsAtOnce);
  if (further.length === 0) return;
  page.heading('Further steps, if the next capture still asks for them');
  for (const move of further) {
    const depends = move.dependsOn.length > 0 ? ` ${after(move)}` : '';
    page.paragraph(sentence(move.instruction) + depends, { lead: `${move.step}. `.padStart(textIndent) });
  }
}
