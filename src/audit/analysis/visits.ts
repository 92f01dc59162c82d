import type { RecordingDigest } from './recording-digest.ts';
import { mean } from './sample-statistics.ts';

export type ChartSide = 'right' | 'left' | 'both' | 'midline';

/** One time that markers were put on, with the mean offsets of its captures. */
export interface AuditVisit {
  readonly trial: string;
  readonly assessor: string | null;
  readonly site: string | null;
  readonly on: string | null;
  readonly version: string;
  /** By rule without its side, then side; `both` is the mean of right and left, where both are known. */
  readonly offsets: ReadonlyMap<string, Readonly<Partial<Record<ChartSide, number>>>>;
  readonly limits: ReadonlyMap<string, number>;
}

/**
 * Captures of one subject on one day by one assessor share their markers, so they are one piece of evidence and not
 * several. A recording without subject or day stands for itself. In the order of day, then hash.
 */
export function gatherVisits(digests: readonly RecordingDigest[]): AuditVisit[] {
  const gathered = new Map<string, RecordingDigest[]>();
  const ordered = [...digests].sort(byDay);
  for (const digest of ordered) {
    const { subject, on, assessor, site, identity } = digest;
    const key = JSON.stringify(subject === null || on === null ? [identity] : [subject, on, assessor, site]);
    gathered.set(key, [...(gathered.get(key) ?? []), digest]);
  }
  return [...gathered.values()].map(asVisit);
}

function byDay(a: RecordingDigest, b: RecordingDigest): number {
  const [first, second] = [a, b].map(({ on, identity }) => `${on ?? '9999'} ${identity}`) as [string, string];
  return first < second ? -1 : first > second ? 1 : 0;
}

function asVisit(captures: readonly RecordingDigest[]): AuditVisit {
  const [first] = captures as [RecordingDigest, ...RecordingDigest[]];
  const stems = new Set(captures.flatMap(({ offsets }) => [...offsets.keys()]));
  const offsets = new Map<string, Partial<Record<ChartSide, number>>>();
  const limits = new Map<string, number>();
  for (const stem of stems) {
    const entries = captures.map((capture) => capture.offsets.get(stem)).filter((entry) => entry !== undefined);
    const sided: Partial<Record<ChartSide, number>> = {};
    for (const side of ['right', 'left', 'midline'] as const) {
      const values = entries.map((entry) => entry[side]).filter((value) => value !== null);
      if (values.length > 0) sided[side] = mean(values);
    }
    if (sided.right !== undefined && sided.left !== undefined) sided.both = (sided.right + sided.left) / 2;
    offsets.set(stem, sided);
    limits.set(stem, mean(entries.map(({ limit }) => limit)));
  }
  const { trial, assessor, site, on, version } = first;
  return { trial, assessor, site, on, version, offsets, limits };
}
