import { fixed } from '../../core/report/rounding.ts';
import { sentence } from '../../core/report/sentence.ts';
import { type TextOptions, TextPage } from '../../core/report/text-page.ts';
import type { AuditReport } from '../analysis/audit-report.ts';
import {
  daysOf,
  findingAdvice,
  findingFigures,
  findingTitle,
  forLearning,
  headlineOf,
  missingOf,
  percent,
  range,
  signed,
  visitsOf,
  waysOf,
  whatCounts,
  whoAndWhen,
} from './audit-words.ts';

const mostRules = 10;
const mostMarkers = 8;
const mostTrials = 10;

/** The audit for a terminal: what was found first, the evidence below it. */
export function formatAuditText(report: AuditReport, options: TextOptions): string {
  const page = new TextPage(options);
  page.paragraph(headlineOf(report), { ink: 'bold' });
  page.blank();
  page.paragraph(
    `${daysOf(report.scope)}; ${report.verdicts.ready} ready, ${report.verdicts.adjust} to adjust, ${report.verdicts['not-assessable']} not assessable.`,
  );
  page.paragraph(forLearning);
  writeFindings(page, report);
  writeReexamination(page, report);
  writeRules(page, report);
  writeMarkers(page, report);
  writeOffsets(page, report);
  writeCaseMix(page, report);
  writeMissing(page, report);
  writeVersions(page, report);
  page.heading('Records for a quality audit');
  for (const { record, shown, says } of report.records)
    page.paragraph(says, { indent: 2, lead: `${record} (${shown}): ` });
  page.blank();
  page.paragraph(`Months and charts are in --format html and json. setsquare ${report.tool.version}`, { ink: 'dim' });
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
  page.heading(
    `Trials to look at again (${reexamine.total}; the worst ${Math.min(mostTrials, reexamine.listed.length)} first)`,
  );
  for (const [index, trial] of reexamine.listed.slice(0, mostTrials).entries()) {
    page.paragraph(whoAndWhen(trial), { indent: 2, lead: `${index + 1}. ` });
    page.paragraph(trial.reason, { indent: 5 });
    if (trial.path !== null) page.paragraph(trial.path, { indent: 5, lead: 'File: ' });
    if (trial.page !== null) page.paragraph(trial.page, { indent: 5, lead: 'Page: ' });
  }
}

function writeRules(page: TextPage, { rules }: AuditReport): void {
  const failing = rules.filter(({ counts }) => counts.fail > 0).slice(0, mostRules);
  if (failing.length === 0) return;
  page.heading('Rules most often off');
  page.table([
    ['', 'fail', 'share', 'above', 'below', 'mean', 'SD', ''],
    ...failing.map(({ rule, counts, failShare, failsAbove, failsBelow, mean, sd, unit }) => [
      rule,
      String(counts.fail),
      percent(failShare),
      String(failsAbove),
      String(failsBelow),
      signed(mean),
      fixed(1, sd),
      unit,
    ]),
  ]);
}

function writeMarkers(page: TextPage, { markers }: AuditReport): void {
  if (markers.length === 0) return;
  page.heading('Markers most often named, and where they would have to go');
  for (const marker of markers.slice(0, mostMarkers)) {
    const turn = marker.meanTurnDeg === null ? '' : `; turned by ${signed(marker.meanTurnDeg)} degrees on average`;
    page.paragraph(`${waysOf(marker)}${turn}`, { indent: 2, lead: `${marker.marker}, named ${marker.named}x: ` });
  }
}

function writeOffsets(page: TextPage, { offsets }: AuditReport): void {
  for (const by of ['assessor', 'site'] as const) {
    const shown = offsets.filter((offset) => offset.by === by);
    if (shown.length === 0) continue;
    page.heading(`Mean offset of each construction rule by ${by}, with 95 % intervals`);
    page.table([
      ['', 'visits', 'mean', '95 %', 'SD'],
      ...shown.map((offset) => [
        `${offset.group} ${offset.rule}${offset.side === 'midline' ? '' : `, ${offset.side}`}`,
        visitsOf(offset),
        signed(offset.mean),
        range(offset.isFew ? null : offset.meanInterval),
        fixed(1, offset.sd),
      ]),
    ]);
  }
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
    'Ages and what follows are counted in recordings; facts: with recorded facts; medial: with optional markers on.',
    { indent: 2 },
  );
}

function writeMissing(page: TextPage, report: AuditReport): void {
  const lines = missingOf(report);
  if (lines.length === 0 && report.problems.length === 0) return;
  page.heading('What is missing or could not be judged');
  for (const line of lines) page.paragraph(line, { indent: 2, lead: '- ' });
  for (const { code, recordings } of report.problems)
    page.paragraph(`${code}: ${recordings}`, { indent: 2, lead: '- ' });
}

function writeVersions(page: TextPage, { versions }: AuditReport): void {
  page.heading('Judged by');
  for (const { markerSet, version, hash, norms, tool, recordings, firstDay, lastDay } of versions) {
    const days = firstDay === null ? '' : `, ${firstDay} to ${lastDay}`;
    page.paragraph(
      `${markerSet} ${version} (${hash}), ${norms ?? 'no norms'}, setsquare ${tool}: ${recordings} recordings${days}`,
      { indent: 2, lead: '- ' },
    );
  }
}
