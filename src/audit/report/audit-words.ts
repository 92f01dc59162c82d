import { counted } from '../../core/report/counted.ts';
import { fixed } from '../../core/report/rounding.ts';
import { sentence } from '../../core/report/sentence.ts';
import type {
  AuditReport,
  Finding,
  GroupOffset,
  MarkerTally,
  Reexamination,
  RuleTally,
  VersionUse,
} from '../analysis/audit-report.ts';
import { leastDriftVisits } from '../analysis/find-habits.ts';
import { leastVisits } from '../analysis/group-offsets.ts';
import type { Interval } from '../analysis/sample-statistics.ts';

/** Said on top of every form of the report. */
export const forLearning =
  'The charts are for learning, not for ranking people: an offset may come from the protocol, the room or the patients as well as from a hand. Talk about it with the person it shows.';

export const whatCounts = `Captures of one subject on one day by one assessor count as one visit. Under ${leastVisits} visits nothing is concluded. Groups stand in the order of their codes.`;

/** What was found, or why nothing could be. */
export function headlineOf({ findings, scope, lookedFor, unreadable }: AuditReport): string {
  if (scope.recordings === 0) return 'No trial was found.';
  if (unreadable.total === scope.recordings)
    return `None of ${counted(scope.recordings, 'file')} could be read as a trial.`;
  const among = `${counted(scope.recordings - unreadable.total, 'recording')} of ${counted(scope.visits, 'visit')}`;
  if (findings.length > 0) return `${countFindings(findings)} found in ${among}.`;
  if (lookedFor.assessors === 0)
    return `Habits and drift could not be looked for in ${among}: no assessor is recorded.`;
  if (lookedFor.habits === 0)
    return `Too few visits to look for habits or drift: no assessor has ${leastVisits} or more among ${among}.`;
  return `No habit and no drift found in ${among}.`;
}

function countFindings(findings: readonly Finding[]): string {
  const drifts = findings.filter(({ kind }) => kind === 'drift').length;
  return [
    ...(drifts === 0 ? [] : [counted(drifts, 'drift')]),
    ...(drifts === findings.length ? [] : [counted(findings.length - drifts, 'habit')]),
  ].join(' and ');
}

/** With whom it could be looked for at all; '' where no assessor is recorded. */
export function lookedForOf({ lookedFor: { assessors, habits, drift } }: AuditReport): string {
  if (assessors === 0) return '';
  return `Habits were looked for with ${habits} of ${counted(assessors, 'assessor')} (${leastVisits} visits or more), drift with ${drift} (${leastDriftVisits} or more).`;
}

/** What makes the report one of a part of the archive only; nobody shall overlook it. */
export function incompleteOf({ scope, unreadable }: AuditReport): string[] {
  const lines: string[] = [];
  if (scope.missingParts.length > 0) {
    const isOne = scope.missingParts.length === 1;
    lines.push(
      `Not complete: ${isOne ? 'part' : 'parts'} ${scope.missingParts.join(', ')} ${isOne ? 'is' : 'are'} missing, and ${isOne ? 'its' : 'their'} share of the files is not in this report.`,
    );
  }
  if (scope.unreadFolders > 0)
    lines.push(`Not complete: ${counted(scope.unreadFolders, 'folder')} could not be opened.`);
  if (unreadable.total > 0 && unreadable.total < scope.recordings)
    lines.push(`${unreadFiles(unreadable.total)}: listed below.`);
  return lines;
}

/** "1 file could not be read as a trial" */
export function unreadFiles(count: number): string {
  return `${counted(count, 'file')} could not be read as ${count === 1 ? 'a trial' : 'trials'}`;
}

export function daysOf({ firstDay, lastDay }: AuditReport['scope']): string {
  return firstDay === null ? 'No day recorded' : `${firstDay} to ${lastDay}`;
}

/** Of the trials that could be read. */
export function verdictsOf({ verdicts, unreadable }: AuditReport): string {
  const not = verdicts['not-assessable'] - unreadable.total;
  return `${verdicts.ready} ready, ${verdicts.adjust} to adjust, ${not} not assessable`;
}

const kinds: Readonly<Record<Finding['kind'], string>> = {
  'both-sides': 'Habit on both sides',
  'one-side': 'Habit on one side',
  drift: 'Drift',
};

export function findingTitle({ kind, assessor, title }: Finding): string {
  return `${kinds[kind]}, assessor ${assessor}: ${title}`;
}

export function findingFigures({ offset, interval, unit, limit, visits, since, windows }: Finding): string {
  const moved =
    windows === null
      ? `mean offset ${signed(offset)} ${unit} over ${visits} visits`
      : `mean of the first ${windows.visits} visits ${signed(windows.first)} ${unit}, of the latest ${signed(windows.latest)} ${unit}, so moved by ${signed(offset)} ${unit}`;
  const from = since === null ? '' : `; the moving average left its limits on ${since}`;
  return `${moved} (95 % interval over all that was looked at ${range(interval)})${from}; allowed in a single trial: ${fixed(1, limit)} ${unit} either way`;
}

export function findingAdvice({ kind, versionsChanged }: Finding): string {
  const versions = versionsChanged
    ? ' The marker set or the program changed in this time: see first whether that is the reason.'
    : '';
  const look =
    kind === 'both-sides'
      ? 'Equal errors on both sides look symmetric in every single trial. Watch one placement together, along the axis of the joint.'
      : 'Watch one placement together, and compare with a colleague on the same person.';
  return look + versions;
}

export function signed(value: number | null): string {
  const text = fixed(1, value);
  return value !== null && value > 0 && text !== '0.0' ? `+${text}` : text;
}

export function range(interval: Interval | null): string {
  return interval === null ? '-' : `${signed(interval[0])} to ${signed(interval[1])}`;
}

export function percent(share: number | null): string {
  if (share === null) return '-';
  return share > 0 && share < 0.005 ? 'under 1 %' : `${fixed(0, share * 100)} %`;
}

/** "12 visits", marked where they are few. */
export function visitsOf({ visits, isFew }: GroupOffset): string {
  return isFew ? `${visits} (few)` : String(visits);
}

/** "Right thigh wand (R_TW)" */
export function markerName({ marker, called, side }: MarkerTally): string {
  const named = side === 'midline' || called === marker ? called : `${side} ${called}`;
  return called === marker ? marker : `${named} (${marker})`;
}

/** "backward 55 times, by 13 mm on average; forward once, by 16 mm" */
export function waysOf({ ways }: MarkerTally): string {
  return ways
    .map(({ way, recordings, meanMm }) =>
      `${way} ${recordings} times, ${fixed(0, meanMm)} mm`.replace(' 1 times', ' once'),
    )
    .join('; ');
}

/** Degrees about the bone: "turned 6 degrees backward on average" */
export function turnOf({ meanTurnDeg }: MarkerTally): string {
  if (meanTurnDeg === null || Math.abs(meanTurnDeg) < 0.05) return '';
  return `turned ${fixed(1, Math.abs(meanTurnDeg))} degrees ${meanTurnDeg > 0 ? 'forward' : 'backward'} on average`;
}

/** "fails in 56 of 337 (17 %): 55 above what is expected, 1 below" */
export function failsOf({ counts, failShare, failsAbove, failsBelow }: RuleTally): string {
  const assessed = counts.pass + counts.borderline + counts.fail + counts.accepted;
  return `fails in ${counts.fail} of ${assessed} (${percent(failShare)}): ${failsAbove} above what is expected, ${failsBelow} below`;
}

export const whoAndWhenColumns = 'subject, trial, day, assessor, site';

export function whoAndWhen({ subject, trial, assessor, site, on }: Reexamination): string {
  return [subject ?? 'no subject code', trial, on ?? 'no day', assessor ?? 'no assessor', site ?? 'no site'].join(', ');
}

export function missingOf({ missing, scope, unreadable }: AuditReport): string[] {
  const all = scope.recordings - unreadable.total;
  const lines = (
    [
      ['assessor', missing.assessor],
      ['site', missing.site],
      ['day', missing.day],
      ['subject code', missing.subject],
      ['session file', missing.session],
    ] as const
  ).flatMap(([what, count]) => (count === 0 ? [] : [`${what}: missing in ${count} of ${all} recordings`]));
  if (missing.assessor + missing.site + missing.day > 0)
    lines.push(
      'who, when and where can come from a session file beside the trial, from C3D parameters that the marker set names, or from --path-pattern',
    );
  if (missing.sessionsRefused > 0)
    lines.push(
      `${counted(missing.sessionsRefused, 'session file')} could not be used; those trials were checked without`,
    );
  if (scope.files > scope.recordings)
    lines.push(
      `${counted(scope.files - scope.recordings, 'more file')} with a recording that another file holds, too; it counts once`,
    );
  return lines.map((line) => sentence(line));
}

/** Problems met in the capture or the file, each with its code; files that could not be read stand apart. */
export function problemsOf({ problems }: AuditReport): string[] {
  return problems
    .filter(({ code }) => code !== 'file-unreadable')
    .map(({ code, recordings }) => `${code}: ${counted(recordings, 'recording')}`);
}

export function versionOf({
  markerSet,
  version,
  hash,
  norms,
  tool,
  recordings,
  firstDay,
  lastDay,
}: VersionUse): string {
  const days = firstDay === null ? '' : `, ${firstDay} to ${lastDay}`;
  return `${markerSet} ${version} (${hash}), ${norms ?? 'no norms'}, setsquare ${tool}: ${counted(recordings, 'recording')}${days}`;
}
