import type { RuleStatus, Verdict } from '../../core/report/report.ts';
import type { Unit } from '../../core/rule-kinds/rule-kind.ts';
import type { RuleSide } from '../parts/trial-row.ts';
import type { Interval } from './sample-statistics.ts';

/** One kind of record that an audit of quality asks for, and whether the stored trials can show it. */
export interface QualityRecord {
  readonly record: string;
  readonly shown: 'yes' | 'in part' | 'no';
  readonly says: string;
}

/** What an audit says. Lengths mm, angles degrees; an offset is what was found minus what the protocol wants. */
export interface AuditReport {
  readonly format: 'setsquare-audit/1';
  readonly tool: { readonly version: string };
  readonly scope: Scope;
  readonly verdicts: Readonly<Record<Verdict, number>>;
  /** In how many recordings each problem was met. */
  readonly problems: readonly { readonly code: string; readonly recordings: number }[];
  /** What is missing, in recordings that could be read: charts and comparisons leave those out. */
  readonly missing: Readonly<Record<'assessor' | 'site' | 'day' | 'subject' | 'session', number>> & {
    readonly sessionsRefused: number;
  };
  readonly versions: readonly VersionUse[];
  readonly lookedFor: LookedFor;
  readonly findings: readonly Finding[];
  readonly rules: readonly RuleTally[];
  readonly markers: readonly MarkerTally[];
  /** What ten above what is expected means, for each rule of the offsets (without its side). */
  readonly signs: readonly { readonly rule: string; readonly says: string }[];
  readonly offsets: readonly GroupOffset[];
  readonly charts: readonly GroupChart[];
  readonly caseMix: readonly CaseMix[];
  /** Records that an audit of quality asks for. */
  readonly records: readonly QualityRecord[];
  readonly reexamine: { readonly total: number; readonly listed: readonly Reexamination[] };
  readonly unreadable: { readonly total: number; readonly listed: readonly UnreadableFile[] };
}

/** With how many of the assessors a habit or a drift could be looked for: the others have too few visits. */
export interface LookedFor {
  readonly assessors: number;
  readonly habits: number;
  readonly drift: number;
}

export interface UnreadableFile {
  readonly trial: string;
  /** Shown with names only. */
  readonly path: string | null;
  readonly reason: string;
}

export interface Scope {
  /** Files of unlike content, those that could not be read among them. */
  readonly recordings: number;
  readonly files: number;
  /** Captures of one subject on one day by one assessor count as one visit; so does a recording without those. */
  readonly visits: number;
  readonly firstDay: string | null;
  readonly lastDay: string | null;
  readonly unreadFolders: number;
  readonly unreadFiles: number;
  /** Shares of the files that no part tells of, such as "3 of 8". */
  readonly missingParts: readonly string[];
}

export interface VersionUse {
  readonly markerSet: string;
  readonly version: string;
  /** First 8 digits of the marker set's hash. */
  readonly hash: string;
  readonly norms: string | null;
  readonly tool: string;
  readonly recordings: number;
  readonly firstDay: string | null;
  readonly lastDay: string | null;
}

export interface RuleTally {
  readonly rule: string;
  readonly title: string;
  readonly side: RuleSide;
  readonly basis: 'construction' | 'anatomy';
  readonly unit: Unit;
  readonly counts: Readonly<Record<RuleStatus, number>>;
  /** Share of those assessed that fail. */
  readonly failShare: number | null;
  /** Fails above and below what is expected. */
  readonly failsAbove: number;
  readonly failsBelow: number;
  /** Of the offsets, or of the values where a range is allowed. */
  readonly mean: number | null;
  readonly sd: number | null;
  /** In words, which way a failing rule fails most; empty where it fails as often the other way. */
  readonly says: string;
}

export interface MarkerTally {
  readonly marker: string;
  readonly called: string;
  readonly side: 'right' | 'left' | 'midline';
  /** Recordings in which a step names it. */
  readonly named: number;
  /** Where it was expected, seen from where it was: recordings by the largest part of the way. */
  readonly ways: readonly { readonly way: string; readonly recordings: number; readonly meanMm: number }[];
  readonly meanDistanceMm: number | null;
  /** Wands: degrees about the bone, forward positive. */
  readonly meanTurnDeg: number | null;
}

export interface GroupOffset {
  readonly by: 'assessor' | 'site' | 'month';
  readonly group: string;
  /** Rule without its side. */
  readonly rule: string;
  readonly title: string;
  /** `both` is the mean of right and left. */
  readonly side: RuleSide;
  readonly unit: Unit;
  readonly visits: number;
  /** Under the least number of visits at which anything is concluded. */
  readonly isFew: boolean;
  readonly mean: number;
  readonly meanInterval: Interval | null;
  readonly sd: number | null;
  readonly sdInterval: Interval | null;
  readonly limit: number | null;
}

/** Something that fifty trials show and one does not. */
export interface Finding {
  readonly kind: 'both-sides' | 'one-side' | 'drift';
  readonly assessor: string;
  readonly rule: string;
  readonly title: string;
  readonly side: RuleSide;
  readonly unit: Unit;
  readonly visits: number;
  /** The shared offset; for a drift, how far the latest visits are from the first. */
  readonly offset: number;
  readonly interval: Interval;
  readonly limit: number;
  /** A drift: means of the first and the latest visits, which it was judged by. */
  readonly windows: { readonly visits: number; readonly first: number; readonly latest: number } | null;
  /** A drift: first day on which the moving average left its limits. */
  readonly since: string | null;
  /** Versions changed between the first and the latest visits: that may be the reason. */
  readonly versionsChanged: boolean;
  readonly says: string;
}

export interface ChartPoint {
  readonly on: string;
  readonly trial: string;
  readonly value: number;
  readonly average: number;
  readonly averageLower: number;
  readonly averageUpper: number;
  readonly isOutside: boolean;
  readonly isAverageOutside: boolean;
}

export interface GroupChart {
  readonly by: 'assessor' | 'site';
  readonly group: string;
  readonly rule: string;
  readonly title: string;
  readonly side: RuleSide;
  readonly unit: Unit;
  /** First visits, from which centre and limits come. */
  readonly baseline: number;
  /** Of those, outside their own limits and not counted. */
  readonly leftOut: number;
  readonly isProvisional: boolean;
  readonly centre: number;
  readonly meanRange: number;
  readonly lower: number;
  readonly upper: number;
  readonly rangeUpper: number;
  readonly lambda: number;
  readonly limit: number | null;
  readonly points: readonly ChartPoint[];
  /** Points before which the marker set or the program changed. */
  readonly changes: readonly { readonly before: number; readonly says: string }[];
}

/** Whom a group saw: comparisons between groups with unlike patients mislead. */
export interface CaseMix {
  readonly by: 'assessor' | 'site';
  readonly group: string;
  readonly recordings: number;
  readonly visits: number;
  readonly ages: Readonly<Record<'under 13' | '13 to 17' | '18 to 64' | '65 and over' | 'unknown', number>>;
  readonly withFacts: number;
  readonly withOptionalMarkers: number;
  readonly notStill: number;
}

export interface Reexamination {
  readonly trial: string;
  /** Shown with names only. */
  readonly path: string | null;
  readonly subject: string | null;
  readonly assessor: string | null;
  readonly site: string | null;
  readonly on: string | null;
  readonly verdict: Verdict;
  /** The larger, the sooner: how many times its limit the worst construction rule is off; see docs/audit.md. */
  readonly score: number;
  readonly reason: string;
  /** Where its page lies, seen from the report; null where none was written. */
  readonly page: string | null;
}
