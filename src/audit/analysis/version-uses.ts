import type { TrialRow } from '../parts/trial-row.ts';
import type { VersionUse } from './audit-report.ts';

/** With which marker set, norms and program the recordings were judged, and when. */
export class VersionUses {
  readonly #uses = new Map<string, { -readonly [Key in keyof VersionUse]: VersionUse[Key] }>();

  add(row: TrialRow): void {
    const key = versionOf(row);
    const on = row.visit_on;
    const use = this.#uses.get(key);
    if (use === undefined) {
      this.#uses.set(key, {
        markerSet: row.marker_set,
        version: row.marker_set_version,
        hash: row.marker_set_sha256.slice(0, 8),
        norms: row.norms,
        tool: row.tool,
        recordings: 1,
        firstDay: on,
        lastDay: on,
      });
      return;
    }
    use.recordings += 1;
    if (on === null) return;
    if (use.firstDay === null || on < use.firstDay) use.firstDay = on;
    if (use.lastDay === null || on > use.lastDay) use.lastDay = on;
  }

  report(): VersionUse[] {
    return [...this.#uses]
      .sort(([a, { firstDay: x }], [b, { firstDay: y }]) => ((x ?? '9') + a < (y ?? '9') + b ? -1 : 1))
      .map(([, use]) => ({ ...use }));
  }
}

export function versionOf({ marker_set, marker_set_version, marker_set_sha256, norms, tool }: TrialRow): string {
  return `${marker_set} ${marker_set_version} (${marker_set_sha256.slice(0, 8)}), ${norms ?? 'no norms'}, setsquare ${tool}`;
}
