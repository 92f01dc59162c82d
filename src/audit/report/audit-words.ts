import { counted } from '../../core/report/counted.ts';
import { fixed } from '../../core/report/rounding.ts';
import { sentence } from '../../core/report/sentence.ts';
import type { AuditReport, Finding, GroupOffset, MarkerTally, Reexamination } from '../analysis/audit-report.ts';
import { leastVisits } from '../analysis/group-offsets.ts';
import type { Interval } from '../analysis/sample-statistics.ts';

/** Said on top of every form of the report. */
export const forLearning =
  'The charts are for learning, not for ranking people: an offset may come from the protocol, the room or the patients as well as from a hand. Talk about it with the person it shows.';

export const whatCounts = `Captures of one subject on one day by one assessor count as one visit. Under ${leastVisits} visits nothing is concluded. Groups stand in the order of their codes.`;

export function headlineOf({ findings, scope }: AuditReport): string {
  const found =
    findings.length === 0
      ? 'No habit and no drift found'
      : counted(findings.length, 'habit or drift', 'habits or drifts');
  return `${found} in ${counted(scope.recordings, 'recording')} of ${counted(scope.visits, 'visit')}.`;
}

export function daysOf({ firstDay, lastDay }: AuditReport['scope']): string {
  return firstDay === null ? 'no day recorded' : `${firstDay} to ${lastDay}`;
}

const kinds: Readonly<Record<Finding['kind'], string>> = {
  'both-sides': 'Habit on both sides',
  'one-side': 'Habit on one side',
  drift: 'Drift',
};

export function findingTitle({ kind, assessor, title }: Finding): string {
  return `${kinds[kind]}, assessor ${assessor}: ${title}`;
}

export function findingFigures({ offset, interval, unit, limit, visits, since, kind }: Finding): string {
  const moved = kind === 'drift' ? `moved by ${signed(offset)} ${unit}` : `mean offset ${signed(offset)} ${unit}`;
  const from = since === null ? '' : `; the moving average left its limits on ${since}`;
  return `${moved} (interval ${range(interval)}); a single trial is allowed ${fixed(1, limit)}; ${visits} visits${from}`;
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
  return share === null ? '-' : `${fixed(0, share * 100)} %`;
}

/** "12 visits", marked where they are few. */
export function visitsOf({ visits, isFew }: GroupOffset): string {
  return isFew ? `${visits} (few)` : String(visits);
}

/** "backward 55 times by 13 mm, forward 1 by 16 mm" */
export function waysOf({ ways }: MarkerTally): string {
  return ways.map(({ way, recordings, meanMm }) => `${way} ${recordings}x, ${fixed(0, meanMm)} mm`).join('; ');
}

export function whoAndWhen({ subject, trial, assessor, site, on }: Reexamination): string {
  return [subject ?? 'no subject code', trial, on ?? 'no day', assessor ?? 'no assessor', site ?? 'no site'].join(', ');
}

export function missingOf({ missing, scope }: AuditReport): string[] {
  const all = scope.recordings;
  const lines = (
    [
      ['assessor', missing.assessor],
      ['site', missing.site],
      ['day', missing.day],
      ['subject code', missing.subject],
      ['session file', missing.session],
    ] as const
  ).flatMap(([what, count]) => (count === 0 ? [] : [`${what}: missing in ${count} of ${all} recordings`]));
  if (missing.sessionsRefused > 0)
    lines.push(
      `${counted(missing.sessionsRefused, 'session file')} could not be used; those trials were checked without`,
    );
  if (scope.unreadFiles > 0) lines.push(`${counted(scope.unreadFiles, 'file')} could not be read at all`);
  if (scope.unreadFolders > 0) lines.push(`${counted(scope.unreadFolders, 'folder')} could not be opened`);
  if (scope.missingParts.length > 0) {
    const isOne = scope.missingParts.length === 1;
    lines.push(
      `${isOne ? 'part' : 'parts'} ${scope.missingParts.join(', ')} ${isOne ? 'is' : 'are'} missing: ${isOne ? 'its' : 'their'} share of the files is not in this report`,
    );
  }
  if (scope.files > all)
    lines.push(
      `${counted(scope.files - all, 'more file')} with a recording that another file holds, too; it counts once`,
    );
  return lines.map((line) => sentence(line));
}
