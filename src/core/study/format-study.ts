import { counted } from '../report/counted.ts';
import { fixed } from '../report/rounding.ts';
import { sentence } from '../report/sentence.ts';
import { type TextOptions, TextPage } from '../report/text-page.ts';
import type { StudyReport } from './study-report.ts';
import {
  angleBands,
  angleName,
  costText,
  estimateText,
  headlineOf,
  iccInWords,
  isJudged,
  meanings,
  modelsOf,
  offsetsOf,
  placementName,
  publishedPrecision,
  recordOf,
  sourcesOf,
  worstOf,
} from './study-words.ts';

const listed = { placements: 12, sources: 5, landmarks: 8, distances: 6 };

/** The report as text, what matters most first. */
export function formatStudy(report: StudyReport, options: TextOptions): string {
  const page = new TextPage(options);
  page.paragraph(headlineOf(report), { ink: 'bold' });
  page.blank();
  for (const [name, text] of recordOf(report)) page.paragraph(text, { lead: `${name}:`.padEnd(13) });
  page.blank();
  for (const [lead, text] of worstOf(report)) page.paragraph(`${lead}: ${text}`, { indent: 2, lead: '- ' });
  writeCautions(page, report);
  writePlacements(page, report);
  writeSources(page, report);
  writeAngles(page, report);
  writeLandmarks(page, report);
  writeDistances(page, report);
  writeIcc(page, report);
  page.heading('What the figures are');
  for (const meaning of [modelsOf(report), ...meanings]) page.paragraph(meaning, { indent: 2, lead: '- ' });
  return page.toString();
}

function writeCautions(page: TextPage, { cautions }: StudyReport): void {
  if (cautions.length === 0) return;
  page.heading('Before a figure is believed');
  for (const caution of cautions) page.paragraph(sentence(caution), { indent: 2, lead: '- ' });
}

function writePlacements(page: TextPage, report: StudyReport): void {
  const judged = report.placements.filter(isJudged);
  if (judged.length === 0) return;
  page.heading('Placement, SEM in mm: what costs most in degrees first');
  page.table([
    ['', 'one assessor', 'any assessor', 'MDC95', '1 SEM changes'],
    ...judged
      .slice(0, listed.placements)
      .map(({ marker, direction, repeats, costs: [cost] }) => [
        `${marker} ${direction}`,
        estimateText(repeats.semWithin, 1),
        estimateText(repeats.semBetween, 1),
        fixed(1, (repeats.mdcBetween ?? repeats.mdcWithin)?.value ?? null),
        costText(cost, marker),
      ]),
  ]);
  const rest = judged.length - listed.placements;
  if (rest > 0) page.paragraph(`${rest} others cost less; all are in the JSON and on the page.`, { indent: 2 });
  if (report.notTold.length > 0)
    page.paragraph(
      `What could not be told apart from how the segment lay: ${report.notTold.map(({ marker, direction }) => `${marker} ${direction}`).join(', ')}.`,
      { indent: 2 },
    );
}

function writeSources(page: TextPage, { placements }: StudyReport): void {
  const shown = placements.filter(isJudged).slice(0, listed.sources);
  if (shown.length === 0) return;
  page.heading('Where the error comes from');
  for (const placement of shown) {
    const { furthest } = placement.repeats;
    const offsets = offsetsOf(placement);
    page.paragraph(
      `${sentence(placementName(placement))} ${sentence(sourcesOf(placement.repeats))}${offsets === '' ? '' : ` ${offsets}.`} Furthest: ${furthest.subject} by ${furthest.assessor}, session ${furthest.session}, ${fixed(1, Math.abs(furthest.by))} mm off.`,
      { indent: 2, lead: '- ' },
    );
  }
}

function writeAngles(page: TextPage, report: StudyReport): void {
  const judged = report.angles.filter(isJudged);
  if (judged.length === 0) return;
  page.heading('Joint angles in standing, SEM in degrees: the worst first');
  page.table([
    ['', 'one assessor', 'any assessor', 'placing', 'MDC95'],
    ...judged.map(({ repeats, fromPlacingDeg, ...angle }) => [
      angleName(angle),
      estimateText(repeats.semWithin, 1),
      estimateText(repeats.semBetween, 1),
      fixed(1, fromPlacingDeg),
      fixed(1, (repeats.mdcBetween ?? repeats.mdcWithin)?.value ?? null),
    ]),
  ]);
  page.paragraph(angleBands(report), { indent: 2 });
}

/** Shares of the variance; not told where there is one subject. */
function writeIcc(page: TextPage, report: StudyReport): void {
  const judged = report.angles.filter(isJudged).filter(({ repeats }) => repeats.iccBetween ?? repeats.iccWithin);
  if (judged.length === 0) return;
  page.heading('Joint angles in standing, ICC (95 %)');
  page.table([
    ['', 'one assessor', 'any assessor', 'in words'],
    ...judged.map(({ repeats, ...angle }) => [
      angleName(angle),
      estimateText(repeats.iccWithin, 2),
      estimateText(repeats.iccBetween, 2),
      iccInWords(repeats.iccBetween ?? repeats.iccWithin, repeats.size.subjects) ?? 'too few subjects',
    ]),
  ]);
}

function writeLandmarks(page: TextPage, { landmarks }: StudyReport): void {
  if (landmarks.length === 0) return;
  page.heading('Markers in all directions, mm: beside published precision');
  page.table([
    ['', 'one assessor', 'any assessor', ''],
    ...landmarks
      .slice(0, listed.landmarks)
      .map(({ marker, called, rmsWithinMm, rmsBetweenMm, without }) => [
        `${marker}, ${called}`,
        fixed(1, rmsWithinMm),
        fixed(1, rmsBetweenMm),
        without.length === 0 ? '' : `without ${without.join(', ')}`,
      ]),
  ]);
  const rest = landmarks.length - listed.landmarks;
  if (rest > 0) page.paragraph(`${counted(rest, 'other')} less.`, { indent: 2 });
  for (const published of publishedPrecision) page.paragraph(published, { indent: 2, lead: '- ' });
}

function writeDistances(page: TextPage, { distances }: StudyReport): void {
  const judged = distances.filter(isJudged);
  if (judged.length === 0) return;
  page.heading('Distances between markers of one segment, SEM in mm: the worst first');
  page.table([
    ['', 'one assessor', 'any assessor', 'MDC95'],
    ...judged
      .slice(0, listed.distances)
      .map(({ markers, repeats }) => [
        markers.join(' to '),
        estimateText(repeats.semWithin, 1),
        estimateText(repeats.semBetween, 1),
        fixed(1, (repeats.mdcBetween ?? repeats.mdcWithin)?.value ?? null),
      ]),
  ]);
  const rest = judged.length - listed.distances;
  if (rest > 0) page.paragraph(`${counted(rest, 'other')} less.`, { indent: 2 });
}
