import type { TrialRow } from '../parts/trial-row.ts';

/** Offsets of one construction rule on the sides it has. */
export interface SidedOffsets {
  readonly right: number | null;
  readonly left: number | null;
  /** Of a rule without sides. */
  readonly midline: number | null;
  readonly limit: number;
}

/** What charts and comparisons need of one recording: little enough to keep for every one. */
export interface RecordingDigest {
  readonly trial: string;
  /** Orders recordings of one day: the same in any number of parts. */
  readonly identity: string;
  readonly assessor: string | null;
  readonly site: string | null;
  readonly on: string | null;
  readonly subject: string | null;
  /** Marker set, norms and program, as one text that is the same for the same. */
  readonly version: string;
  /** By rule without its side. */
  readonly offsets: ReadonlyMap<string, SidedOffsets>;
}

/**
 * Offsets count where a construction rule has a target and was judged. One that the session accepts with a reason is
 * the patient's, not the assessor's, and is left out.
 */
export function digestOf(row: TrialRow, versionOf: (row: TrialRow) => string): RecordingDigest {
  const offsets = new Map<
    string,
    { right: number | null; left: number | null; midline: number | null; limit: number }
  >();
  for (const { rule, side, basis, status, value, expected, limit } of row.checks) {
    const isOffset = basis === 'construction' && expected !== null && value !== null && limit !== null;
    if (!isOffset || status === 'accepted' || status === 'not-assessed') continue;
    const isSided = side === 'right' || side === 'left';
    const stem = isSided ? rule.slice(0, -side.length - 1) : rule;
    const entry = offsets.get(stem) ?? { right: null, left: null, midline: null, limit };
    entry[isSided ? side : 'midline'] = value - expected;
    offsets.set(stem, entry);
  }
  return {
    trial: row.trial,
    identity: row.sha256 ?? '',
    assessor: row.assessor,
    site: row.site,
    on: row.visit_on,
    subject: row.subject,
    version: versionOf(row),
    offsets,
  };
}
