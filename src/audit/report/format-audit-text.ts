import { counted } from '../../core/report/counted.ts';
import { fixed } from '../../core/report/rounding.ts';
import { sentence } from '../../core/report/sentence.ts';
import { type TextOptions, TextPage } from '../../core/report/text-page.ts';
import type { AuditReport } from '../analysis/audit-report.ts';
import {
  daysOf,
  failsOf,
  findingAdvice,
  findingFigures,
  findingTitle,
  forLearning,
  headlineOf,
  incompleteOf,
  lookedForOf,
  markerName,
  missingOf,
  problemsOf,
  range,
  signed,
  turnOf,
  verdictsOf,
  versionOf,
  visitsOf,
  waysOf,
  whatCounts,
  whoAndWhen,
  whoAndWhenColumns,
} from './audit-words.ts';
import { widestOffsets } from './widest-offsets.ts';

const mostRules = 10;
const mostMarkers = 8;
const mostTrials = 10;
const mostUnreadable = 10;

/** The audit for a terminal: what was found first, the evidence below it. */
export function formatAuditText(report: AuditReport, options: TextOptions): string {
  const page = new TextPage(options);
  page.paragraph(headlineOf(report), { ink: 'bold' });
  page.blank();
  if (report.scope.recordings > 0) {
    page.paragraph(`${daysOf(report.scope)}; ${verdictsOf(report)}. ${lookedForOf(report)}`);
    for (const line of incompleteOf(report)) page.paragraph(line, { ink: 'yellow' });
    page.paragraph(forLearning);
  } else for (const line of incompleteOf(report)) page.paragraph(line, { ink: 'yellow' });
  writeFindings(page, report);
  writeReexamination(page, report);
  writeUnreadable(page, report);
  writeRules(page, report);
  writeMarkers(page, report);
  writeOffsets(page, report);
  writeCaseMix(page, report);
  writeMissing(page, report);
  writeVersions(page, report);
  writeRecords(page, report);
  page.blank();
  page.paragraph(
    `Charts and months are in --format html and json, the offsets of each side in csv. setsquare ${report.tool.version}`,
    { ink: 'dim' },
  );
  return page.toString();
}

function writeFindings(page: TextPage, { findings }: AuditReport): void {
  for (const [index, finding] of findings.entries()) {
    page.blank();
    page.paragraph(findingTitle(finding), { indent: 2, lead: `${index + 1}. `, ink: 'bold' });
    page.paragraph(sentence(finding.says), { indent: 5 });
    page.paragraph(sentence(findingFigures(finding)), { indent: 5 });
    page.paragraph(findingAdvice(finding), { indent: 5, lead: 'Do: ' });
  }
}

function writeReexamination(page: TextPage, { reexamine }: AuditReport): void {
  if (reexamine.total === 0) return;
  const shown = Math.min(mostTrials, reexamine.listed.length);
  page.heading(
    `Trials to look at again (${shown < reexamine.total ? `the worst ${shown} of ${reexamine.total}` : reexamine.total}): ${whoAndWhenColumns}`,
  );
  for (const [index, trial] of reexamine.listed.slice(0, mostTrials).entries()) {
    page.paragraph(whoAndWhen(trial), { indent: 2, lead: `${index + 1}. `.padStart(4) });
    page.paragraph(trial.reason, { indent: 6 });
    if (trial.path !== null) page.paragraph(trial.path, { indent: 6, lead: 'File: ' });
    if (trial.page !== null) page.paragraph(trial.page, { indent: 6, lead: 'Page: ' });
  }
}

function writeUnreadable(page: TextPage, { unreadable }: AuditReport): void {
  if (unreadable.total === 0) return;
  page.heading(`Files that could not be read (${unreadable.total})`);
  for (const { trial, path, reason } of unreadable.listed.slice(0, mostUnreadable)) {
    page.paragraph(`${trial}: ${reason}`, { indent: 2 });
    if (path !== null) page.paragraph(path, { indent: 4, lead: 'File: ' });
  }
  if (unreadable.listed.every(({ path }) => path === null))
    page.paragraph('An audit with --show-names says which files these are.', { indent: 2 });
}

function writeRules(page: TextPage, { rules }: AuditReport): void {
  const failing = rules.filter(({ counts }) => counts.fail > 0);
  if (failing.length === 0) return;
  page.heading(`Rules most often off${failing.length > mostRules ? `, ${mostRules} of ${failing.length}` : ''}`);
  for (const rule of failing.slice(0, mostRules)) {
    const mean = rule.mean === null ? '' : `; mean ${signed(rule.mean)} ${rule.unit}, SD ${fixed(1, rule.sd)}`;
    page.paragraph(`${rule.rule} ${failsOf(rule)}${mean}.`, { indent: 2 });
    if (rule.says !== '') page.paragraph(`Mostly ${rule.says}.`, { indent: 4 });
  }
}

function writeMarkers(page: TextPage, { markers }: AuditReport): void {
  if (markers.length === 0) return;
  page.heading('Markers most often named in a step, and where they would have to go');
  for (const marker of markers.slice(0, mostMarkers)) {
    page.paragraph(`${markerName(marker)}, ${counted(marker.named, 'recording')}:`, { indent: 2 });
    page.paragraph([waysOf(marker), turnOf(marker)].filter((text) => text !== '').join('; '), { indent: 4 });
  }
}

function writeOffsets(page: TextPage, { offsets, signs }: AuditReport): void {
  const wide = widestOffsets(offsets);
  const groups = (['assessor', 'site'] as const).map((by) => ({
    by,
    shown: wide.filter((offset) => offset.by === by),
  }));
  for (const { by, shown } of groups) {
    if (shown.length === 0) continue;
    page.heading(`Mean offset of each construction rule by ${by}, right and left together`);
    page.table([
      ['', 'visits', 'mean', '95 % interval', 'SD', ''],
      ...shown.map((offset) => [
        `${offset.group} ${offset.rule}${offset.side === 'right' || offset.side === 'left' ? `, ${offset.side}` : ''}`,
        visitsOf(offset),
        signed(offset.mean),
        range(offset.isFew ? null : offset.meanInterval),
        fixed(1, offset.sd),
        offset.unit,
      ]),
    ]);
  }
  if (groups.every(({ shown }) => shown.length === 0)) return;
  page.blank();
  for (const { rule, says } of signs) page.paragraph(`${rule}, ${says}`, { indent: 2 });
  page.paragraph(whatCounts, { indent: 2 });
}

function writeCaseMix(page: TextPage, { caseMix }: AuditReport): void {
  if (caseMix.length === 0) return;
  page.heading('Whom each saw: groups with unlike patients do not compare');
  page.table([
    ['', 'visits', '<13', '13-17', '18-64', '65+', 'age?', 'facts', 'medial', 'restless'],
    ...caseMix.map(({ by, group, visits, ages, withFacts, withOptionalMarkers, notStill }) => [
      `${by} ${group}`,
      ...[visits, ages['under 13'], ages['13 to 17'], ages['18 to 64'], ages['65 and over'], ages.unknown].map(String),
      ...[withFacts, withOptionalMarkers, notStill].map(String),
    ]),
  ]);
  page.paragraph(
    'Ages and what follows are counted in recordings. facts: such as contractures are recorded; medial: optional markers were on; restless: never still.',
    { indent: 2 },
  );
}

function writeMissing(page: TextPage, report: AuditReport): void {
  const lines = [...missingOf(report), ...problemsOf(report)];
  if (lines.length === 0) return;
  page.heading('What is missing, and problems met (setsquare explain PROBLEM)');
  for (const line of lines) page.paragraph(line, { indent: 2, lead: '- ' });
}

function writeVersions(page: TextPage, { versions }: AuditReport): void {
  if (versions.length === 0) return;
  page.heading('Judged by');
  for (const version of versions) page.paragraph(versionOf(version), { indent: 2, lead: '- ' });
}

function writeRecords(page: TextPage, { records }: AuditReport): void {
  page.heading('Records that a quality audit asks for, and whether the store shows them');
  for (const { record, shown, says } of records) {
    page.paragraph(`${record}: ${shown}`, { indent: 2 });
    page.paragraph(says, { indent: 4 });
  }
}
