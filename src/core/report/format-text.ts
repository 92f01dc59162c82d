import { supportsOnly, walkingTrials, whenToStop } from './advice.ts';
import { counted } from './counted.ts';
import { ownName } from './own-name.ts';
import type { Problem, Report } from './report.ts';
import { fixed } from './rounding.ts';
import { sentence } from './sentence.ts';
import { writeAngles } from './text-angles.ts';
import { writeNotAssessed, writeNotPassed, writePassed, writeStance, writeUnseen } from './text-checks.ts';
import { headline, openProblems, swapsToRelabel } from './text-headline.ts';
import { writeMeasurements } from './text-measurements.ts';
import { type TextOptions, TextPage } from './text-page.ts';
import { writePlates } from './text-plates.ts';
import { writeFurtherSteps, writeSteps } from './text-steps.ts';

/** A wrong marker set can leave every marker missing: the page stays readable. */
const problemsAtOnce = 3;

/**
 * The report for a person beside the patient: what to do first, the evidence below it. Plain text of at most
 * `columns` columns; colour only where asked for, and never the only sign of anything.
 */
export function formatText(report: Report, options: TextOptions): string {
  const page = new TextPage(options);
  page.paragraph(headline(report), { ink: 'bold' });
  page.blank();
  writeOrigin(page, report);

  const open = openProblems(report);
  const first = [...swapsToRelabel(report), ...open.slice(0, problemsAtOnce)];
  for (const problem of first) {
    page.blank(2);
    writeProblem(page, problem);
  }
  if (open.length > problemsAtOnce) {
    page.blank(2);
    page.paragraph(`${counted(open.length - problemsAtOnce, 'more problem')}: see the list below.`, { indent: 2 });
  }
  writeSteps(page, report);

  page.blank(2);
  if (report.moves.some(({ action }) => action === 'move' || action === 'palpate-again')) page.paragraph(walkingTrials);
  page.paragraph(whenToStop);
  page.blank();

  writeFurtherSteps(page, report);
  if (report.notes.length > 0) page.heading('Notes');
  for (const note of report.notes) page.paragraph(sentence(note.message), { indent: 2, lead: '- ' });
  writeNotPassed(page, report);
  writePassed(page, report.rules);
  writeNotAssessed(page, report);
  writeUnseen(page, report);
  writeStance(page, report.stance);
  writeAngles(page, report);
  writeMeasurements(page, report);
  writePlates(page, report.plates);
  const others = report.problems.filter((problem) => !first.includes(problem));
  if (others.length > 0) page.heading(`Problems of the trial (${others.length})`);
  for (const problem of others) {
    writeProblem(page, problem);
  }
  page.blank();
  page.paragraph(supportsOnly);
  page.paragraph(`setsquare ${report.tool.version}`, { ink: 'dim' });
  return page.toString();
}

function writeOrigin(page: TextPage, report: Report): void {
  const { trial, subject, markerSet, norms } = report;
  const frames = trial.window
    ? `, frames ${trial.window.firstFrame} to ${trial.window.lastFrame}, sway ${fixed(1, trial.window.swayMm)} mm`
    : '';
  page.paragraph(ownName(trial.path) + frames, { lead: 'Trial:       ' });
  if (subject.code !== null) page.paragraph(subject.code, { lead: 'Subject:     ' });
  page.paragraph(`${markerSet.name}, version ${markerSet.version}`, { lead: 'Marker set:  ' });
  if (norms)
    page.paragraph(`${norms.name}, version ${norms.version}; ${originInWords(norms.origin)}`, {
      lead: 'Norms:       ',
    });
}

/** Norms that rest on simulated people say so. */
export function originInWords(origin: string): string {
  return origin === 'generated' ? 'generator-derived' : origin;
}

function writeProblem(page: TextPage, problem: Problem): void {
  const isError = problem.severity === 'error';
  page.paragraph(sentence(problem.message), {
    indent: 2,
    lead: isError ? 'Error: ' : 'Warning: ',
    ink: isError ? 'bold' : 'plain',
  });
  page.paragraph(sentence(problem.remedy), { indent: 4, lead: 'Do: ' });
}
