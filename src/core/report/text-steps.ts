import { skinPen } from './advice.ts';
import { counted } from './counted.ts';
import type { Move, MoveProposal, Report } from './report.ts';
import { ruleName } from './rule-name.ts';
import { sentence } from './sentence.ts';
import type { TextPage } from './text-page.ts';

/** Nobody can stand for more than this before the next capture. */
const stepsAtOnce = 3;
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
  page.paragraph(sentence(move.why), { indent: textIndent, lead: 'Why: ' });
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

function after(move: Move): string {
  const steps = move.dependsOn.map(String);
  const last = steps.at(-1)!;
  return steps.length === 1
    ? `Only after step ${last}.`
    : `Only after steps ${steps.slice(0, -1).join(', ')} and ${last}.`;
}

/** Another look than that of the step itself comes first, and is told right under it. */
function settledElsewhere({ tie, marker }: Move): boolean {
  return tie !== null && tie.settledBy !== marker;
}

/** How sure the step is and what else would explain the findings; empty where nothing is known. */
function doubtAbout(move: Move): string {
  const others = move.alternatives.map(placeOf);
  const or = others.length === 0 ? '' : `It could also be ${anyOf(others)}.`;
  return [howLikely(move, others.length > 0), or, settledElsewhere(move) ? '' : (move.tie?.says ?? '')]
    .filter((text) => text !== '')
    .join(' ');
}

/** In words: the figure rests on simulated people and stays in the JSON report. */
function howLikely({ probability, action }: Move, others: boolean): string {
  if (probability === null || action === 'relabel') return '';
  if (probability >= mostLikely) return 'Judged over the whole body, this is most likely the marker that is off.';
  if (probability >= likely)
    return 'Judged over the whole body, this is likely the marker that is off, but not certain.';
  const besides = others ? 'others explain the findings as well' : 'the patient may as well be built so';
  return `Judged over the whole body, this is possibly the marker that is off; ${besides}.`;
}

const mostLikely = 0.75;
const likely = 0.4;

/** "the patient's right greater trochanter (about 35 mm forward, toward the groin)" */
function placeOf({ action, landmark, called, side, distanceMm, along }: MoveProposal): string {
  const sided = side === undefined || side === 'midline' ? '' : `${side} `;
  const far = distanceMm === undefined || along === undefined ? '' : ` (about ${nearestFive(distanceMm)} mm ${along})`;
  const what = action === 'move' ? called : landmark;
  return `the patient's ${sided}${what ?? 'marker'}${far}`;
}

function nearestFive(mm: number): number {
  return Math.max(5, Math.round(mm / 5) * 5);
}

function anyOf(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')}, or ${names.at(-1)}`;
}
