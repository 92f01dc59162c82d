import { toolVersion } from '../../core/version.ts';
import type { RowSource } from '../parts/part-file.ts';
import type { AuditReport } from './audit-report.ts';
import { CaseMixes } from './case-mix.ts';
import { findHabits, leastDriftVisits } from './find-habits.ts';
import { groupCharts } from './group-charts.ts';
import { groupOffsets, groupVisits, leastVisits, stemsOf } from './group-offsets.ts';
import { qualityRecords } from './quality-records.ts';
import { Reexaminations } from './rank-reexaminations.ts';
import { digestOf, type RecordingDigest } from './recording-digest.ts';
import { RuleWords } from './rule-words.ts';
import { MarkerTallies } from './tally-markers.ts';
import { RuleTallies } from './tally-rules.ts';
import { UnreadableFiles } from './unreadable-files.ts';
import { VersionUses, versionOf } from './version-uses.ts';
import { gatherVisits } from './visits.ts';

export interface AnalysisOptions {
  /** Most trials to re-examine that are listed; all are counted. */
  readonly mostReexaminations: number;
}

/**
 * What many trials say together. One walk through the rows; the same whatever order and in however many parts they
 * come. Figures are unrounded; they are rounded once, when written.
 */
export async function analyse(source: RowSource, { mostReexaminations }: AnalysisOptions): Promise<AuditReport> {
  const { header } = source;
  const words = new RuleWords(header.sets);
  const sides = new Map(header.sets.flatMap(({ markers }) => markers).map(({ label, side }) => [label, side]));
  const verdicts = { ready: 0, adjust: 0, 'not-assessable': 0 };
  const missing = { assessor: 0, site: 0, day: 0, subject: 0, session: 0, sessionsRefused: 0 };
  const problems = new Map<string, number>();
  const rules = new RuleTallies();
  const markers = new MarkerTallies();
  const reexaminations = new Reexaminations(mostReexaminations);
  const unreadable = new UnreadableFiles(mostReexaminations);
  const caseMixes = new CaseMixes();
  const versions = new VersionUses();
  const digests: RecordingDigest[] = [];
  const days = new Set<string>();
  let files = 0;
  let recordings = 0;

  for await (const row of source.rows()) {
    files += row.copies;
    recordings += 1;
    verdicts[row.verdict] += 1;
    reexaminations.add(row, words);
    unreadable.add(row);
    for (const code of new Set(row.problems.map((problem) => problem.code)))
      problems.set(code, (problems.get(code) ?? 0) + 1);
    // A file that could not be read was judged by nothing, and is no visit.
    if (row.fault !== null) continue;
    if (row.assessor === null) missing.assessor += 1;
    if (row.site === null) missing.site += 1;
    if (row.visit_on === null) missing.day += 1;
    else days.add(row.visit_on);
    if (row.subject === null) missing.subject += 1;
    if (!row.has_session) missing.session += 1;
    if (row.session_fault !== null) missing.sessionsRefused += 1;
    versions.add(row);
    rules.add(row.checks);
    markers.add(row.steps, (marker) => sides.get(marker) ?? 'midline');
    caseMixes.add(row);
    digests.push(digestOf(row, versionOf));
  }
  const visits = gatherVisits(digests);
  const charts = groupCharts(visits, words);
  const sortedDays = [...days].sort();
  const visitsOf = { assessor: groupVisits(visits, 'assessor'), site: groupVisits(visits, 'site') };
  const scope = {
    recordings,
    files,
    visits: visits.length,
    firstDay: sortedDays[0] ?? null,
    lastDay: sortedDays.at(-1) ?? null,
    unreadFolders: header.unread.folders,
    unreadFiles: header.unread.files,
    missingParts: header.missingParts,
  };
  const used = versions.report();
  return {
    format: 'setsquare-audit/1',
    tool: { version: toolVersion },
    scope,
    verdicts,
    problems: [...problems]
      .map(([code, recordings]) => ({ code, recordings }))
      .sort((a, b) => b.recordings - a.recordings || (a.code < b.code ? -1 : 1)),
    missing,
    versions: used,
    lookedFor: {
      assessors: visitsOf.assessor.size,
      habits: [...visitsOf.assessor.values()].filter((members) => members.length >= leastVisits).length,
      drift: new Set(
        charts.flatMap(({ by, group, points }) =>
          by === 'assessor' && points.length >= leastDriftVisits ? [group] : [],
        ),
      ).size,
    },
    findings: findHabits(visits, charts, words),
    rules: rules.report(words),
    markers: markers.report(header.sets),
    signs: stemsOf(visits).map((rule) => ({ rule, says: words.saySign(rule) })),
    offsets: groupOffsets(visits, words),
    charts,
    caseMix: caseMixes.report((by, group) => visitsOf[by].get(group)?.length ?? 0),
    records: qualityRecords(digests.length, missing, used),
    reexamine: reexaminations.report(),
    unreadable: unreadable.report(),
  };
}
